/** May a knob, a toggle or a turnout be thrown now? The reasons against it; none: it may. */

import { feedOf, knobOf, liveBehind, parentOf, phaseCode, supplyOf } from './feed.ts';
import { addReason, headBlock, placed, type Reason, type State, type World } from './state.ts';
import { sure } from './sure.ts';
import { blockOfPassage, type Setting } from './track.ts';
import { cabAt, gapsUnder, locksOn, trainsIn, viewOf } from './views.ts';

/** The blocks that a knob feeds at first hand. */
export const blocksOfKnob = (world: World, knob: string): string[] =>
  world.doc.blocks.map((block) => block.id as string).filter((block) => knobOf(world, block) === knob);

/** The blocks that a knob feeds, with the sections behind that are on. */
export const areaOf = (world: World, state: State, knob: string): string[] =>
  blocksOfKnob(world, knob).flatMap((block) => [block, ...liveBehind(world, state, block)]);

/** Whose a block is against a throttle that would feed it: owned, or occupied, by another cab. */
function strangers(
  world: World,
  state: State,
  area: readonly string[],
  throttle: string,
  reasons: Reason[],
): void {
  const occupied: [string, string][] = [];
  for (const block of area) {
    const view = viewOf(world, state, block);
    const isThere = trainsIn(state, block).some(({ train }) => train === view.train);
    if (view.cab !== null && view.train !== null && view.cab !== throttle) {
      if (isThere) occupied.push([block, view.train]);
      else addReason(reasons, 'block-owned', block, view.train, view.cab);
    }
    if (view.state === 'disputed' && view.cab === null)
      for (const { train, cab } of trainsIn(state, block))
        if (cab !== throttle) occupied.push([block, train]);
  }
  for (const about of occupied) addReason(reasons, 'block-occupied', ...about);
}

/** A train across a gap with one side in the area: what the two sides would come to be. */
function gapReasons(
  world: World,
  state: State,
  area: readonly string[],
  throttle: string,
  reasons: Reason[],
): void {
  const found: { code: string; about: string[]; node: string }[] = [];
  for (const train of placed(state))
    for (const way of gapsUnder(world, state, train)) {
      const sides = [sure(world.track.blockOf[way.from]), sure(world.track.blockOf[way.to])];
      const inside = sides.filter((block) => area.includes(block));
      if (inside.length !== 1) continue;
      const outside = sure(sides.find((block) => !area.includes(block)));
      const other = feedOf(world, state, outside);
      if (other === null || other === throttle) continue;
      const code = phaseCode(world, state, throttle, other);
      const agreed =
        cabAt(state, train, sure(inside[0])) === throttle && cabAt(state, train, outside) === other;
      if (code === null && agreed) continue;
      const own = sure(state.trains[train]).cab;
      const supplies = [supplyOf(world, throttle), supplyOf(world, other)];
      if (own !== null && supplies[1] === supplyOf(world, own)) supplies.reverse();
      found.push({
        node: way.node,
        code: code ?? 'bridged',
        about: code === null ? [way.node] : [way.node, ...supplies],
      });
    }
  const place = (node: string): number => world.doc.nodes.findIndex((one) => one.id === node);
  const codes = ['unphased-gap', 'phase-unknown', 'bridged'];
  found.sort((a, b) => codes.indexOf(a.code) - codes.indexOf(b.code) || place(a.node) - place(b.node));
  for (const { code, about } of found) addReason(reasons, code, ...about);
}

/** Cabs whose handle may be up: somebody has it, and it was not said to be at zero since its last authority. */
const mayBeUp = (state: State, cab: string): boolean =>
  state.persons[cab] !== null && !state.zero.includes(cab);

function sweepReasons(world: World, state: State, knob: string, to: string, reasons: Reason[]): void {
  const dial = sure(world.doc.selectors.find((one) => one.id === knob));
  const own = blocksOfKnob(world, knob);
  const across = placed(state).some((train) =>
    gapsUnder(world, state, train).some(
      (way) =>
        own.includes(sure(world.track.blockOf[way.from])) || own.includes(sure(world.track.blockOf[way.to])),
    ),
  );
  const inside = own.some((block) => trainsIn(state, block).length > 0);
  if (!across && !(dial.contacts === 'make-before-break' && inside)) return;
  const from = dial.positions.indexOf(state.selectors[knob] as never);
  const goal = dial.positions.indexOf(to as never);
  const way = (step: 1 | -1): (string | null)[] => {
    const passed: (string | null)[] = [];
    const size = dial.positions.length;
    for (let at = (from + step + size) % size; at !== goal; at = (at + step + size) % size)
      passed.push(dial.positions[at] ?? null);
    return passed;
  };
  const ways = dial.stops ? [way(goal > from ? 1 : -1)] : [way(1), way(-1)];
  const firstUp = ways.map(
    (passed) =>
      passed.find(
        (cab) => cab !== null && cab !== 'off' && cab !== state.selectors[knob] && mayBeUp(state, cab),
      ) ?? null,
  );
  if (firstUp.every((cab) => cab !== null))
    addReason(reasons, 'sweeps-live-position', knob, sure(firstUp[0]));
}

export function turnSelectorReasons(
  world: World,
  state: State,
  selector: string,
  position: string,
): Reason[] {
  const reasons: Reason[] = [];
  if (position === 'off' || state.selectors[selector] === position) return reasons;
  const dial = sure(world.doc.selectors.find((one) => one.id === selector));
  if (!dial.positions.includes(position as never)) {
    for (const block of blocksOfKnob(world, selector)) addReason(reasons, 'cab-not-wired', block, position);
    return reasons;
  }
  const area = areaOf(world, state, selector);
  strangers(world, state, area, position, reasons);
  if (state.tags.includes(selector)) addReason(reasons, 'out-of-service', selector);
  sweepReasons(world, state, selector, position, reasons);
  gapReasons(world, state, area, position, reasons);
  return reasons;
}

export function setToggleReasons(world: World, state: State, toggle: string, on: boolean): Reason[] {
  const reasons: Reason[] = [];
  if (!on || state.toggles[toggle]) return reasons;
  const area = areaOf(world, state, toggle);
  const parent = blocksOfKnob(world, toggle)[0];
  const throttle = parent === undefined ? null : feedOf(world, state, sure(parentOf(world, parent)));
  if (throttle !== null) strangers(world, state, area, throttle, reasons);
  if (state.tags.includes(toggle)) addReason(reasons, 'out-of-service', toggle);
  if (throttle !== null) gapReasons(world, state, area, throttle, reasons);
  return reasons;
}

export function throwTurnoutReasons(
  world: World,
  state: State,
  turnout: string,
  position: Setting,
): Reason[] {
  const reasons: Reason[] = [];
  if (state.turnouts[turnout] === position) return reasons;
  const held = locksOn(world, state, turnout).some(
    (lock) =>
      lock.how !== 'ahead' ||
      lock.way.setting !== position ||
      headBlock(state, lock.train) === blockOfPassage(world.track, lock.way),
  );
  if (held) addReason(reasons, 'turnout-locked', turnout);
  if (state.tags.includes(turnout)) addReason(reasons, 'out-of-service', turnout);
  return reasons;
}

/** What an order to throw something would be refused with now. */
export function throwReasons(
  world: World,
  state: State,
  kind: string,
  id: string,
  to: string | boolean,
): Reason[] {
  if (kind === 'selector') return turnSelectorReasons(world, state, id, String(to));
  if (kind === 'toggle') return setToggleReasons(world, state, id, to === true);
  return throwTurnoutReasons(world, state, id, to as Setting);
}
