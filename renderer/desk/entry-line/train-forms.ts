/** Lines about a train: what it does or did, where it stands, whose it is. */
import type { BlockId, ThrottleId } from '../../../shared-model/ids.ts';
import { facingWords } from '../../../shared-model/railroad/where-words.ts';
import { authorityOf } from '../../../shared-model/session/facts/authorities.ts';
import { atSpots, facing } from './at-spots.ts';
import { changedEnds } from './change-ends.ts';
import { type Form, form, plainForm } from './form.ts';
import { lastReportOf } from './last-report.ts';
import { send } from './reading.ts';
import { labelOf, trainOf } from './said.ts';
import { block, destination, maybe, thing, train, wholeWord, word } from './slots.ts';
import { cabSlot, standsForms } from './stands-forms.ts';
import { yardForms } from './yard-forms.ts';

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
  plainForm([train(), verb === 'off' ? wholeWord(verb) : word(verb)], (said) => ({
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
  ...standsForms,
  wasIn,
  turns,
  ...plainStates,
  handOff,
  changeCab,
  ...yardForms,
  ends,
  pick,
];
