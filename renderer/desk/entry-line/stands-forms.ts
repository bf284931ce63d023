/** `7 at 5 facing 6 c2`: where a train stands. */
import type { ThrottleId } from '../../../shared-model/ids.ts';
import { atSpots, facing, where } from './at-spots.ts';
import { type Form, form } from './form.ts';
import type { LineContext, Proposal } from './reading.ts';
import { labelOf, type Said, trainOf } from './said.ts';
import { maybe, options, type Slot, thing, train, word } from './slots.ts';

export const cabSlot = thing('cab', ['cab'], 'a cab');

const at: readonly Slot[] = [word('at', 'stands'), maybe(word('in', 'at', 'on')), where];
const spot: readonly Slot[] = [...at, options(facing, [maybe(word('with')), cabSlot])];

function placing(said: Said, context: LineContext): readonly Proposal[] | string {
  const cab = said.has('cab') ? { cab: said.id<ThrottleId>('cab') } : {};
  const whose = said.has('cab') ? ` on ${said.thing('cab').label}` : '';
  return atSpots(
    said,
    context,
    `place ${labelOf(said)} in ${said.thing('where').label}${whose}`,
    (found) => ({
      do: 'place-train',
      train: trainOf(said),
      ...found,
      ...cab,
    }),
  );
}

const correcting = (said: Said, context: LineContext): readonly Proposal[] | string =>
  atSpots(said, context, `${labelOf(said)} stands in ${said.thing('where').label}`, (found) => ({
    do: 'train-at',
    train: trainOf(said),
    ...found,
  }));

export const standsForms: readonly Form[] = [
  // A placing if it is not on the track yet, else a correction.
  form([train(), ...spot], (said, context) =>
    context.state.trains[trainOf(said)]?.placed === true ? correcting(said, context) : placing(said, context),
  ),
  // "7 3 c1": of a train that is not on the track there is nothing else to say with a block.
  form([train(), where, options(facing, [maybe(word('with')), cabSlot])], (said, context) =>
    context.state.trains[trainOf(said)]?.placed === true
      ? `${labelOf(said)} is on the track already.`
      : placing(said, context),
  ),
  // A report in any case.
  form([train(), word('found'), ...at, options(facing)], correcting),
];

/** `place 7 at 5 c2`: a placing in any case, refused if it is on the track already. */
export const placed: Form = form([word('place'), train(), ...spot], placing);
