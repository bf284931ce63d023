/** Lines about a train: what it does or did, where it stands, whose it is. */
import type { BlockId, CutId, ThrottleId, TrainId } from '../../../shared-model/ids.ts';
import type { Spot } from '../../../shared-model/railroad/travel.ts';
import { authorityOf } from '../../../shared-model/session/facts/authorities.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { changedEnds } from './change-ends.ts';
import { type Form, form, plainForm } from './form.ts';
import { lastReportOf } from './last-report.ts';
import { type LineContext, type Proposal, send } from './reading.ts';
import type { Said } from './said.ts';
import { block, blocks, destination, maybe, name, number, options, thing, train, word } from './slots.ts';
import { facingWords, meantSpots } from './spots.ts';

const trainOf = (said: Said): TrainId => said.id<TrainId>('train');
const labelOf = (said: Said): string => said.thing('train').label;

const facing = [word('facing', 'toward'), thing('facing', ['block', 'node'], 'the block it faces')];
const cabSlot = thing('cab', ['cab'], 'a cab');

/** One proposal for each spot that may be meant, each with its facing where there are several. */
function atSpots(
  said: Said,
  context: LineContext,
  says: string,
  input: (spot: Spot) => SessionInput,
): readonly Proposal[] | string {
  const spots = meantSpots(context, {
    where: said.thing('where'),
    train: trainOf(said),
    facing: said.has('facing') ? said.thing('facing') : null,
  });
  if (spots.length === 0) return `Nothing can stand in ${said.thing('where').label} like that.`;
  const words = spots.map((spot) => facingWords(context.railroad, spot));
  return spots.map((spot, index) => {
    const own = words[index] ?? '';
    const alike = words.filter((other) => other === own).length > 1;
    return send(`${says}, ${own}${alike ? ` by ${spot.toward}` : ''}`, input(spot));
  });
}

const where = thing('where', ['block', 'place', 'edge'], 'a block or a place');

/** Where it stands: a placing if it is not on the track yet, else a correction. */
const stands = form(
  [
    train(),
    word('at', 'stands'),
    maybe(word('in', 'at', 'on')),
    where,
    options(facing, [maybe(word('with')), cabSlot]),
  ],
  (said, context) => {
    const id = trainOf(said);
    const at = said.thing('where').label;
    if (context.state.trains[id]?.placed === true)
      return atSpots(said, context, `${labelOf(said)} stands in ${at}`, (spot) => ({
        do: 'train-at',
        train: id,
        ...spot,
      }));
    const cab = said.has('cab') ? { cab: said.id<ThrottleId>('cab') } : {};
    const whose = said.has('cab') ? ` on ${said.thing('cab').label}` : '';
    return atSpots(said, context, `place ${labelOf(said)} in ${at}${whose}`, (spot) => ({
      do: 'place-train',
      train: id,
      ...spot,
      ...cab,
    }));
  },
);

/** "7 in" is the next block of its authority; "7 in 6" catches up. */
const entered = form([train(), word('in'), maybe(block())], (said, { state }) => {
  const id = trainOf(said);
  const held = authorityOf(state, id)?.authority;
  const next = held?.legs[held.at + 1]?.block;
  const into = said.has('block') ? said.id<BlockId>('block') : next;
  if (into === undefined) return `${labelOf(said)} has no block ahead: say which block it is in.`;
  const label = said.has('block') ? said.thing('block').label : 'its next block';
  return [send(`${labelOf(said)} is in ${label}`, { do: 'train-entered', train: id, block: into })];
});

/** "7 clear" is the last block it is in; "7 clear of 3" names it. */
const cleared = form([train(), word('clear'), maybe(word('of')), maybe(block())], (said, { state }) => {
  const id = trainOf(said);
  const inBlocks = state.trains[id]?.blocks ?? [];
  const of = said.has('block')
    ? said.id<BlockId>('block')
    : inBlocks.length > 1
      ? inBlocks.at(-1)
      : undefined;
  if (of === undefined) return `${labelOf(said)} is in one block only: say which block it is clear of.`;
  const label = said.has('block') ? said.thing('block').label : 'its last block';
  return [send(`${labelOf(said)} is clear of ${label}`, { do: 'train-cleared', train: id, block: of })];
});

/** "7 was in 5": what was last reported of it was wrong. It is taken back and said right; where it cannot be, a correction. */
const wasIn = form(
  [train(), word('was'), word('in', 'at'), thing('where', ['block'], 'a block'), maybe(...facing)],
  (said, context) => {
    const id = trainOf(said);
    const report = lastReportOf(context.recent, id);
    const at = said.thing('where').label;
    if (report === null)
      return atSpots(said, context, `${labelOf(said)} stands in ${at}`, (spot) => ({
        do: 'train-at',
        train: id,
        ...spot,
      }));
    return [
      send(
        `take back its last report (entry ${report.entry}); ${labelOf(said)} is in ${at}`,
        { do: 'retract', entry: report.entry, why: `it was in ${at}` },
        { do: 'train-entered', train: id, block: said.id<BlockId>('where') },
      ),
    ];
  },
);

const turns = form([train(), word('turns', 'back')], (said, context) => {
  const spot = changedEnds(context, trainOf(said));
  return spot === null
    ? `It is not known where ${labelOf(said)} stands: say it first.`
    : [
        send(`${labelOf(said)} changes ends, ${facingWords(context.railroad, spot)}`, {
          do: 'train-at',
          train: trainOf(said),
          ...spot,
        }),
      ];
});

const STATES = {
  stopped: 'train-stopped',
  stalled: 'stalled',
  derailed: 'derailed',
  rerailed: 'rerailed',
  off: 'take-off',
  advance: 'advance',
  withdraw: 'withdraw',
} as const;

const plainStates: readonly Form[] = (Object.keys(STATES) as (keyof typeof STATES)[]).map((verb) =>
  plainForm([train(), word(verb)], (said) => ({
    says: `${labelOf(said)}: ${STATES[verb].replaceAll('-', ' ')}`,
    input: { do: STATES[verb], train: trainOf(said) },
  })),
);

const handOff = plainForm([train(), cabSlot, word('at'), block()], (said) => ({
  says: `from ${said.thing('block').label} on ${labelOf(said)} is ${said.thing('cab').label}'s`,
  input: {
    do: 'hand-off',
    train: trainOf(said),
    block: said.id<BlockId>('block'),
    toCab: said.id<ThrottleId>('cab'),
  },
}));

const changeCab = plainForm([train(), cabSlot], (said) => ({
  says: `change ${labelOf(said)} to ${said.thing('cab').label}`,
  input: { do: 'change-cab', train: trainOf(said), cab: said.id<ThrottleId>('cab') },
}));

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

const ends = plainForm([train(), word('ends'), maybe(word('at', 'in')), destination()], (said) => ({
  says: `${labelOf(said)} is to end up at ${said.thing('to').label}`,
  input: { do: 'declare', train: trainOf(said), to: said.id('to') },
}));

const pick = form([train()], (said) => [
  {
    says: `pick ${labelOf(said)} (+ grants what it asks, or its way on)`,
    act: { kind: 'pick', train: trainOf(said) },
  },
]);

export const trainForms: readonly Form[] = [
  entered,
  cleared,
  stands,
  wasIn,
  turns,
  ...plainStates,
  handOff,
  changeCab,
  limits,
  done,
  setsOut,
  takes,
  makeUp,
  ends,
  pick,
];
