/** Routes by trying every way in order of length; no cleverness but never to go twice the same way with the same settings. */
import { sure } from './sure.ts';
import {
  isStop,
  type Passage,
  passages,
  type Setting,
  type Spot,
  type Stretch,
  type Track,
} from './track.ts';

/** What a route must come to: a block, or a spot (with or without a facing). */
export type Target = { block: string } | { edge: string; toward: string | null };

interface Try {
  way: Stretch[];
  length: number;
  reverses: number;
  settings: Record<string, Setting>;
  via: number;
}

function earlier(a: Try, b: Try): number {
  if (Math.abs(a.length - b.length) > 1e-6) return a.length - b.length;
  if (a.reverses !== b.reverses) return a.reverses - b.reverses;
  for (let i = 0; i < Math.min(a.way.length, b.way.length); i += 1) {
    const one = sure(a.way[i]).edge;
    const other = sure(b.way[i]).edge;
    if (one !== other) return one < other ? -1 : 1;
  }
  return a.way.length - b.way.length;
}

/** Whether a way through a node asks for a setting. A self-lining turnout that is trailed asks for none. */
export const needs = (passage: Passage): Setting | null => (passage.trails ? null : passage.setting);

function arrived(track: Track, target: Target, at: Spot): boolean {
  if (!isStop(track, at.toward)) return false;
  if ('block' in target) return track.blockOf[at.edge] === target.block;
  return at.edge === target.edge && (target.toward === null || target.toward === at.toward);
}

/**
 * The shortest route from a head to a target that needs no turnout in two settings; ties by fewer reverse passages, then by edge ids.
 * `settings` are those that the authority still has ahead; `via` blocks must be entered in that order.
 */
export function bestRoute(
  track: Track,
  from: Spot,
  target: Target,
  via: readonly string[] = [],
  settings: Record<string, Setting> = {},
): Stretch[] | null {
  const open: Try[] = [{ way: [], length: 0, reverses: 0, settings: { ...settings }, via: 0 }];
  const seen = new Set<string>();
  while (open.length > 0) {
    open.sort(earlier);
    const best = sure(open.shift());
    const last = best.way.at(-1);
    const at: Spot = last ?? from;
    if (last !== undefined) {
      if (best.via === via.length && arrived(track, target, at)) return best.way;
      const key = JSON.stringify([at.edge, at.toward, best.via, Object.entries(best.settings).sort()]);
      if (seen.has(key)) continue;
      seen.add(key);
    }
    for (const by of passages(track, at.edge, at.toward)) {
      const setting = needs(by);
      const now = best.settings[by.node];
      if (setting !== null && now !== undefined && now !== setting) continue;
      const [a, b] = sure(track.ends[by.to]);
      open.push({
        way: [...best.way, { edge: by.to, toward: a === by.node ? b : a, by }],
        length: best.length + sure(track.length[by.to]),
        reverses: best.reverses + (by.setting === 'reverse' ? 1 : 0),
        settings: setting === null ? best.settings : { ...best.settings, [by.node]: setting },
        via: best.via + (via[best.via] === track.blockOf[by.to] ? 1 : 0),
      });
    }
  }
  return null;
}
