/** Runs one script through the engine and through the second implementation, and finds the first line where they differ. */
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening as newEngineEvening, problemWith, take } from '../../shared-model/session/evening.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import { withNamesOf } from '../../shared-model/session/script.ts';
import { stateAnswer } from '../../shared-model/session/state-answer.ts';
import { chanceOf } from '../support/chance.ts';
import { nextLine } from './driver.ts';
import { inOrder, shownState } from './in-order.ts';
import { answerOf, newEvening, takeLine } from './independent/rehearse.ts';
import { type Line, type World, worldOf } from './independent/state.ts';

/** A line where the two answers differ: which part, and what each says. */
export interface Difference {
  line: number;
  part: string;
  engine: unknown;
  independent: unknown;
}

interface Told {
  outcome: string;
  reasons: readonly { code: string; about: readonly string[] }[];
  authority?: string | undefined;
  throws?: readonly object[] | undefined;
  guards?: readonly object[] | undefined;
}

/** What is compared of an entry: all but the words. */
function entryParts(entry: Told): Record<string, unknown> {
  const bare = (one: object): unknown => {
    const { kind, id, to, block, waitsFor } = one as Record<string, unknown>;
    return { kind, id, to, block, waitsFor };
  };
  return {
    outcome: entry.outcome,
    reasons: entry.reasons.map(({ code, about }) => [code, ...about]),
    authority: entry.authority ?? null,
    throws: entry.throws?.map(bare) ?? null,
    guards: (entry.guards ?? []).map((guard) => ({ ...(bare(guard) as object), waitsFor: null })),
  };
}

function firstDifference(
  line: number,
  engine: Record<string, unknown>,
  own: Record<string, unknown>,
): Difference | null {
  for (const part of Object.keys(own)) {
    const [one, other] = [inOrder(engine[part]), inOrder(own[part])];
    if (JSON.stringify(one) !== JSON.stringify(other)) return { line, part, engine: one, independent: other };
  }
  return null;
}

/** A script of so many lines, made by chance on a railroad. */
export function randomScript(world: World, seed: number, lines: number): Line[] {
  const chance = chanceOf(seed);
  let evening = newEvening(world);
  for (let count = 0; count < lines; count += 1)
    evening = takeLine(world, evening, nextLine(chance, world, evening));
  return evening.lines;
}

/** The first difference between the two implementations on a script, or null. */
export function difference(
  document: RailroadDocument,
  script: readonly Line[],
  world = worldOf(document),
): Difference | null {
  const railroad = indexRailroad(document);
  let engine = newEngineEvening(railroad);
  let own = newEvening(world);
  for (const [index, line] of script.entries()) {
    const { at, ...fields } = line;
    const input = sessionInput.parse(fields);
    if (problemWith(railroad, withNamesOf(engine.state, input), input) !== null) continue;
    own = takeLine(world, own, line);
    let told: Told;
    try {
      const taken = take(engine, { at, input });
      engine = taken.evening;
      told = taken.event;
    } catch (error) {
      return { line: index + 1, part: 'thrown', engine: String(error), independent: null };
    }
    const entry = own.entries.at(-1);
    if (entry === undefined) throw new Error('a line without an entry');
    const found =
      firstDifference(index + 1, entryParts(told), entryParts(entry)) ??
      firstDifference(
        index + 1,
        shownState({ ...stateAnswer(railroad, engine.state) }),
        shownState(answerOf(world, own.state)),
      );
    if (found !== null) return found;
  }
  return null;
}

/** Drops lines, from the last to the first and again, while a difference of the same part remains. */
export function minimized(
  document: RailroadDocument,
  script: readonly Line[],
): { script: Line[]; difference: Difference } | null {
  const world = worldOf(document);
  const first = difference(document, script, world);
  if (first === null) return null;
  let best = script.slice(0, first.line);
  let found = first;
  for (let shorter = true; shorter; ) {
    shorter = false;
    for (let index = best.length - 1; index >= 0; index -= 1) {
      const without = best.filter((_, nth) => nth !== index);
      const still = difference(document, without, world);
      if (still?.part !== found.part) continue;
      best = without.slice(0, still.line);
      found = still;
      shorter = true;
      index = Math.min(index, best.length);
    }
  }
  return { script: best, difference: found };
}
