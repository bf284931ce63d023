/** What Enter would do, said before it is pressed: the batch is tried on the state as it is here, and nothing of it is kept. */
import type { BatchItem } from '../../../shared-model/session/batch.ts';
import { problemWith, takeBatch } from '../../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import type { LookAhead } from '../../../shared-model/session/world.ts';
import { counted } from '../../parts/counted.ts';
import type { LineContext, Proposal } from './reading.ts';

export interface TriedOut {
  /** `unknown`: only the host can tell, since it has the whole log. */
  readonly verdict: 'done' | 'alarm' | 'refused' | 'unknown';
  readonly says: string;
}

/** The host looks longer: it may still refuse. */
const UNDECIDED = 'whether it leads into gridlock is not decided';

const reasonsOf = (events: readonly SessionEvent[]): string =>
  [...new Set(events.flatMap(({ reasons }) => reasons.map(({ says }) => says)))].join(' ');

/** "3 blocks, 2 knobs, free": how much a grant would take. */
function grantWords(event: SessionEvent, blocks: number): string {
  return `${counted(blocks, 'block')}, ${counted(event.throws?.length ?? 0, 'knob')}, free`;
}

/** The look-ahead, and whether any of its looks was left undecided. */
function watched(lookAhead: LookAhead | undefined): {
  readonly lookAhead: LookAhead | undefined;
  readonly undecided: () => boolean;
} {
  if (lookAhead === undefined) return { lookAhead, undecided: () => false };
  let undecided = false;
  return {
    lookAhead: (railroad, situation) => {
      const answer = lookAhead(railroad, situation);
      undecided ||= answer.verdict === 'undecided';
      return answer;
    },
    undecided: () => undecided,
  };
}

function triedWords(events: readonly SessionEvent[], blocksOf: (event: SessionEvent) => number): TriedOut {
  const refused = events.filter(({ outcome }) => outcome === 'refused');
  const alarms = events.filter(({ outcome }) => outcome === 'alarm');
  if (refused.length > 0)
    return { verdict: 'refused', says: `refused, and noted as it stands: ${reasonsOf(refused)}` };
  if (alarms.length > 0) return { verdict: 'alarm', says: `alarm: ${reasonsOf(alarms)}` };
  const grant = events.find(({ authority }) => authority !== undefined);
  return { verdict: 'done', says: grant === undefined ? '' : grantWords(grant, blocksOf(grant)) };
}

/**
 * Tries a batch.
 *
 * @param seconds since the session was opened, now
 */
export function tryOut(
  { railroad, state, lookAhead }: Omit<LineContext, 'recent'>,
  seconds: number,
  items: readonly BatchItem[],
): TriedOut {
  const problem = items.map(({ input }) => problemWith(railroad, state, input)).find((one) => one !== null);
  if (problem !== undefined) return { verdict: 'refused', says: problem };
  if (items.some(({ input }) => input.do === 'retract'))
    return { verdict: 'unknown', says: 'if nothing rests on it' };
  const look = watched(lookAhead);
  const evening = { railroad, state, initial: state, events: [], lookAhead: look.lookAhead };
  const tried = takeBatch(evening, Math.max(seconds, state.at), items);
  if (!tried.ok) {
    const train = 'train' in tried.event.input ? tried.event.input.train : undefined;
    const waits = tried.evening.state.asks.some((ask) => ask.train === train);
    return {
      verdict: 'refused',
      says: `would be refused${waits ? ' and wait' : ''}: ${reasonsOf([tried.event])}`,
    };
  }
  const before = new Set<string>(Object.values(state.authorities).flatMap(({ blocks }) => blocks));
  const words = triedWords(tried.events, ({ authority }) => {
    const blocks = authority === undefined ? [] : (tried.evening.state.authorities[authority]?.blocks ?? []);
    return blocks.filter((block) => !before.has(block)).length;
  });
  return look.undecided() ? { ...words, says: [words.says, UNDECIDED].filter(Boolean).join('; ') } : words;
}

/** What Enter would do with a proposal, in one line. */
export function proposalWords(context: LineContext, seconds: number, { act, says }: Proposal): TriedOut {
  if (act.kind !== 'send') return { verdict: 'done', says };
  const tried = tryOut(context, seconds, act.items);
  return { ...tried, says: tried.says === '' ? says : `${says} (${tried.says})` };
}
