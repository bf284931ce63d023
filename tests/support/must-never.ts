/** The sentences that must never be true, looked for in a state and in the step between two. Empty when all is well. */
import type { Evening } from '../../shared-model/session/evening.ts';
import { eveningOf, worldOf } from '../../shared-model/session/evening.ts';
import { authoritiesInForce, legsHeld } from '../../shared-model/session/facts/authorities.ts';
import { nodesUnder, placedTrains, spotsUnder } from '../../shared-model/session/facts/standing.ts';
import { isObservation } from '../../shared-model/session/input.ts';

/** 1: no two authorities in force share a block or a turnout, but where one joins what stands there, or a block is disputed. */
function sharedThings({ state }: Evening): string[] {
  const found: string[] = [];
  const inForce = authoritiesInForce(state);
  for (const [index, one] of inForce.entries())
    for (const other of inForce.slice(index + 1)) {
      const held = legsHeld(state, one.authority).slice(1);
      const otherHeld = legsHeld(state, other.authority).slice(1);
      for (const leg of held) {
        const now = state.blocks[leg.block];
        if (now?.state === 'disputed' || now?.state === 'occupied') continue;
        if (otherHeld.some(({ block }) => block === leg.block))
          found.push(`${one.id} and ${other.id} share block ${leg.block}`);
        for (const { id } of leg.turnouts)
          if (otherHeld.some(({ turnouts }) => turnouts.some((turnout) => turnout.id === id)))
            found.push(`${one.id} and ${other.id} share turnout ${id}`);
      }
    }
  return found;
}

/** 1, for limits: what is given to a train to work in is on no other authority in force, unless it is disputed. */
export function sharedLimits({ state }: Evening): string[] {
  const inForce = authoritiesInForce(state);
  const held = ({ authority }: (typeof inForce)[number]): readonly string[] =>
    authority.kind === 'limits'
      ? authority.blocks
      : legsHeld(state, authority)
          .slice(1)
          .map(({ block }) => block);
  return inForce
    .filter(({ authority }) => authority.kind === 'limits')
    .flatMap((limits) =>
      inForce
        .filter(({ id }) => id !== limits.id)
        .flatMap((other) =>
          held(other)
            .filter((block) => limits.authority.blocks.includes(block as never))
            .filter((block) => state.blocks[block as never]?.state !== 'disputed')
            .map((block) => `limits ${limits.id} and ${other.id} share block ${block}`),
        ),
    );
}

/** A block's record says what trains, cuts and authorities say. */
function pictureFaults(evening: Evening): string[] {
  const { state } = evening;
  return Object.entries(state.blocks).flatMap(([id, now]) => {
    if (now.state === 'disputed') return [];
    const inside = placedTrains(worldOf(evening)).some(([, train]) => train.blocks.includes(id as never));
    if (inside && now.state !== 'occupied') return [`${id} has a train and is ${now.state}`];
    if (now.state === 'open' && (now.cab !== null || now.train !== null)) return [`${id} is open and owned`];
    return [];
  });
}

/** 3: by an order, a turnout never changes under a train. */
function turnoutFaults(before: Evening, after: Evening): string[] {
  const event = after.events.at(-1);
  if (
    event === undefined ||
    isObservation(event.input) ||
    event.input.do === 'retract' ||
    event.input.do === 'advance'
  )
    return [];
  const changed = Object.keys(after.state.turnouts).filter(
    (id) => before.state.turnouts[id as never]?.position !== after.state.turnouts[id as never]?.position,
  );
  const limits = new Set(
    authoritiesInForce(before.state).flatMap(({ authority }) =>
      authority.kind === 'limits' ? [authority.train] : [],
    ),
  );
  return changed.flatMap((id) =>
    placedTrains(worldOf(before))
      .filter(([train]) => !limits.has(train))
      .filter(([, train]) =>
        nodesUnder(before.railroad, spotsUnder(before.railroad, train)).some(({ node }) => node === id),
      )
      .map(([train]) => `${id} changed under ${train} by ${event.input.do}`),
  );
}

/** 7: a refusal changes nothing but the train's ask. */
function refusalFaults(before: Evening, after: Evening): string[] {
  const event = after.events.at(-1);
  if (event?.outcome !== 'refused') return [];
  return Object.keys(event.changes)
    .filter((key) => !['asks', 'entries', 'at'].includes(key))
    .map((key) => `a refused ${event.input.do} changed ${key} (entry ${before.state.entries + 1})`);
}

/** Everything found in one step. */
export function whatMustNeverBe(before: Evening, after: Evening): readonly string[] {
  return [
    ...sharedThings(after),
    ...sharedLimits(after),
    ...pictureFaults(after),
    ...turnoutFaults(before, after),
    ...refusalFaults(before, after),
  ];
}

/** 5: the fold of the log equals the state shown. */
export function foldsToItself(evening: Evening): boolean {
  const folded = eveningOf(evening.railroad, evening.initial, JSON.parse(JSON.stringify(evening.events)));
  return JSON.stringify(folded.state) === JSON.stringify(evening.state);
}
