/** Lines about yard work: limits taken and given back, cars set out and picked up, a train recounted. */
import type { BlockId, CutId, TrainId } from '../../../shared-model/ids.ts';
import type { Spot } from '../../../shared-model/railroad/travel.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { judge } from '../../../shared-model/session/judge.ts';
import { atSpots, facing, where } from './at-spots.ts';
import { type Form, form, plainForm } from './form.ts';
import { type LineContext, send } from './reading.ts';
import { labelOf, trainOf } from './said.ts';
import { blocks, maybe, name, number, thing, train, word } from './slots.ts';

const limits = plainForm([train(), word('limits'), blocks()], (said) => ({
  says: `limits for ${labelOf(said)}: ${said
    .things('blocks')
    .map(({ label }) => label)
    .join(', ')}`,
  input: { do: 'grant-limits', train: trainOf(said), blocks: [...said.ids<BlockId>('blocks')] },
}));

/** "7 done limits at 8", or "7 done 8". */
const done = form(
  [train(), word('done'), maybe(word('limits')), maybe(word('at')), where, maybe(...facing)],
  (said, context) =>
    atSpots(
      said,
      context,
      `${labelOf(said)} is done with its limits, in ${said.thing('where').label}`,
      (spot) => ({ do: 'release-limits', train: trainOf(said), ...spot }),
    ),
);

/** The first of cut1, cut2 … that nothing is called. */
function freeCut({ railroad, state }: LineContext): CutId {
  const taken = (id: string): boolean =>
    id in state.cuts || id in state.trains || railroad.blocks.has(id as BlockId);
  let number = 1;
  while (taken(`cut${number}`)) number += 1;
  return `cut${number}` as CutId;
}

/** "7 sets cut3 600 in 9"; "7 sets 600 9" where the cut may be called by the next free number. */
const setsOut = form(
  [
    train(),
    word('sets'),
    maybe(name('cut', 'a name for the cut')),
    number('length', 'its length', 'mm'),
    maybe(word('in', 'at')),
    where,
    maybe(...facing),
  ],
  (said, context) => {
    const cut = said.has('cut') ? (said.text('cut') as CutId) : freeCut(context);
    const says = `${labelOf(said)} sets ${cut} out in ${said.thing('where').label}`;
    return atSpots(said, context, says, (spot: Spot) => ({
      do: 'set-out',
      train: trainOf(said),
      cut,
      length: said.number('length'),
      ...spot,
    }));
  },
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

/** "7 takes": the cut that it stands at; a list where there are several. */
const takesOnly = form([train(), word('takes', 'couples')], (said, context) => {
  const found = Object.keys(context.state.cuts)
    .map((cut): SessionInput => ({ do: 'pick-up', train: trainOf(said), cut: cut as CutId }))
    .filter((input) => judge(context, input, context.state.at).kind === 'done');
  return found.length === 0
    ? `No cars stand where ${labelOf(said)} could take them: say which.`
    : found.map((input) => send(`${labelOf(said)} takes ${'cut' in input ? input.cut : ''}`, input));
});

const makeUp = plainForm(
  [train(), word('is', 'makes'), number('length', 'its length', 'mm'), number('amps', 'its current', 'A')],
  (said) => ({
    says: `${labelOf(said)} is ${said.number('length')} mm, ${said.number('amps')} A`,
    input: { do: 'make-up', train: trainOf(said), length: said.number('length'), amps: said.number('amps') },
  }),
);

export const yardForms: readonly Form[] = [limits, done, setsOut, takes, takesOnly, makeUp];
