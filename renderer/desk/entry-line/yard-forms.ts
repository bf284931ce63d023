/** Lines of yard work: limits, cars set out and picked up, engines coupled, a train recounted. */
import type { BlockId, CutId, TrainId } from '../../../shared-model/ids.ts';
import { atSpots, facing, where } from './at-spots.ts';
import { type Form, form, plainForm } from './form.ts';
import { labelOf, trainOf } from './said.ts';
import { blocks, maybe, name, number, thing, train, word } from './slots.ts';

const limits = plainForm([train(), word('limits'), blocks()], (said) => ({
  says: `limits for ${labelOf(said)}: ${said
    .things('blocks')
    .map(({ label }) => label)
    .join(', ')}`,
  input: { do: 'grant-limits', train: trainOf(said), blocks: [...said.ids<BlockId>('blocks')] },
}));

const done = form(
  [train(), word('done'), maybe(word('limits')), word('at'), where, maybe(...facing)],
  (said, context) =>
    atSpots(
      said,
      context,
      `${labelOf(said)} is done with its limits, in ${said.thing('where').label}`,
      (spot) => ({
        do: 'release-limits',
        train: trainOf(said),
        ...spot,
      }),
    ),
);

const setsOut = form(
  [
    train(),
    word('sets'),
    name('cut', 'a name for the cut'),
    number('length', 'its length', 'mm'),
    word('in', 'at'),
    where,
    maybe(...facing),
  ],
  (said, context) =>
    atSpots(
      said,
      context,
      `${labelOf(said)} sets ${said.text('cut')} out in ${said.thing('where').label}`,
      (spot) => ({
        do: 'set-out',
        train: trainOf(said),
        cut: said.text('cut') as CutId,
        length: said.number('length'),
        ...spot,
      }),
    ),
);

const takes = plainForm(
  [train(), word('takes', 'couples'), thing('other', ['cut', 'train'], 'a cut or a train')],
  (said) => {
    const other = said.thing('other');
    const base = { train: trainOf(said) };
    return {
      says: `${labelOf(said)} takes ${other.label}`,
      input:
        other.kind === 'cut'
          ? { do: 'pick-up', ...base, cut: other.id as CutId }
          : { do: 'couple', ...base, other: other.id as TrainId },
    };
  },
);

const makeUp = plainForm(
  [train(), word('is', 'makes'), number('length', 'its length', 'mm'), number('amps', 'its current', 'A')],
  (said) => ({
    says: `${labelOf(said)} is ${said.number('length')} mm, ${said.number('amps')} A`,
    input: { do: 'make-up', train: trainOf(said), length: said.number('length'), amps: said.number('amps') },
  }),
);

export const yardForms: readonly Form[] = [limits, done, setsOut, takes, makeUp];
