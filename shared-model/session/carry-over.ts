/** What outlasts an evening: how the knobs stood, the tags, and the phase checks. */
import type { NodeId, SelectorId, ThrottleId, ToggleId } from '../ids.ts';
import { type TurnoutPosition, turnoutPosition } from '../railroad/document.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { z } from '../zod.ts';
import { lapsedFor } from './facts/checks.ts';
import type { CarriedOver } from './initial.ts';
import { plateOf, standingCheck } from './kept-checks.ts';
import type { PhaseCheckNow, SessionState } from './state.ts';

function positions<Id extends string, Now, Position>(
  records: Readonly<Record<Id, Now>>,
  positionOf: (now: Now) => Position,
): Record<Id, Position> {
  const entries = Object.entries<Now>(records).map(([id, now]) => [id, positionOf(now)] as const);
  return Object.fromEntries(entries) as Record<Id, Position>;
}

const isThing = (railroad: Railroad, thing: string): boolean =>
  [
    railroad.blocks,
    railroad.nodes,
    railroad.selectors,
    railroad.toggles,
    railroad.throttles,
    railroad.supplies,
    railroad.trains,
  ].some((things: ReadonlyMap<string, unknown>) => things.has(thing));

/** The checks of the last evening; those of a supply that was exchanged since, or is gone, say nothing any more. */
function carriedChecks(
  railroad: Railroad,
  { checks }: SessionState,
  lastRailroad: Railroad,
): readonly PhaseCheckNow[] {
  const { supplies } = railroad.document;
  const exchanged = supplies.filter((supply) => {
    const before = lastRailroad.supplies.get(supply.id);
    return before !== undefined && plateOf(before) !== plateOf(supply);
  });
  return exchanged
    .reduce((list, supply) => lapsedFor(list, supply.id), checks)
    .filter(({ a, b }) => railroad.supplies.has(a) && railroad.supplies.has(b));
}

/**
 * What the next evening takes over from the last.
 *
 * @param railroad the railroad of the next evening; what is not on it any more is left behind
 * @param last the state in which the last one was left
 * @param lastRailroad the railroad as it was then
 * @param secondsBetween from the opening of the last to that of the next: moments of the last become negative ones of the next
 */
export function carryOver(
  railroad: Railroad,
  last: SessionState,
  lastRailroad: Railroad,
  secondsBetween: number,
): Required<CarriedOver> {
  // The wall clock may have been set back; the last evening was over before this one all the same.
  const between = Math.max(secondsBetween, last.at);
  return {
    selectors: positions(last.selectors, ({ position }) => position),
    turnouts: positions(last.turnouts, ({ position }) => position),
    toggles: positions(last.toggles, ({ on }) => on),
    tags: last.tags
      .filter(({ thing }) => isThing(railroad, thing))
      .map((tag) => ({ ...tag, at: tag.at - between })),
    checks: carriedChecks(railroad, last, lastRailroad).map((check) => ({
      ...check,
      at: check.at - between,
    })),
  };
}

const position = z.string().min(1).max(80);
const carriedState = z.object({
  selectors: z.record(z.string(), z.object({ position })),
  turnouts: z.record(z.string(), z.object({ position: turnoutPosition })),
  toggles: z.record(z.string(), z.object({ on: z.boolean() })),
  tags: z.array(
    z.strictObject({ thing: z.string(), why: z.string(), by: z.string(), at: z.number().nonpositive() }),
  ),
  checks: z.array(standingCheck),
});

/** What a state before the first event carries over, read from a value that may be anything; null where it is no such state. */
export function carriedBy(value: unknown): CarriedOver | null {
  const parsed = carriedState.safeParse(value);
  if (!parsed.success) return null;
  const { selectors, turnouts, toggles, tags, checks } = parsed.data;
  return {
    selectors: positions(selectors, (now) => now.position) as Record<SelectorId, ThrottleId | 'off'>,
    turnouts: positions(turnouts, (now) => now.position) as Record<NodeId, TurnoutPosition>,
    toggles: positions(toggles, (now) => now.on) as Record<ToggleId, boolean>,
    tags,
    checks,
  };
}
