/** `7 to quarry by 5,6 over joining cut3 back 1`: a request for a move; `7 quarry` is enough. */
import type { BlockId, TrainId } from '../../../shared-model/ids.ts';
import type { Route } from '../../../shared-model/railroad/route.ts';
import { facingWords, spotWords } from '../../../shared-model/railroad/where-words.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { startOf, targetsOf } from '../../../shared-model/session/rules/destination.ts';
import { changedEnds } from './change-ends.ts';
import { type Form, form } from './form.ts';
import { type LineContext, type Proposal, send } from './reading.ts';
import type { Said } from './said.ts';
import { blocks, destination, number, options, type Slot, thing, train, word } from './slots.ts';
import type { Thing } from './things.ts';

const trains = { is: 'things', as: 'with', kinds: ['train'], what: 'trains' } as const;

/** The shortest way there that stops `times` times to change ends. */
function wayWithReversals(context: LineContext, id: TrainId, to: Thing, times: number): Route | null {
  const { state } = context;
  const from = startOf(context, id);
  const length = state.trains[id]?.length ?? 0;
  if (from === null) return null;
  const how = { reversals: times, trainLengthMm: length };
  const routes = targetsOf(context, to.id).flatMap((target) => target.routes(from, how));
  return routes.toSorted((a, b) => a.lengthMm - b.lengthMm)[0] ?? null;
}

/**
 * A move that changes ends on its way is asked for in legs, since a train reports when it has changed ends: the leg to where it first
 * stops for that, with the destination declared; or, where it turns at once, the change of ends and the rest.
 */
function backing(
  said: Said,
  context: LineContext,
  request: SessionInput & { do: 'request-move' },
): readonly Proposal[] | string {
  const { railroad } = context;
  const to = said.thing('to');
  const who = said.thing('train').label;
  const way = wayWithReversals(context, request.train, to, said.number('back'));
  if (way === null) return `No track leads ${who} to ${to.label} with so many changes of ends.`;
  const [first, ...more] = way.reversals;
  if (first === undefined) return [send(`${who} to ${to.label}, without changing ends`, request)];
  const stands = way.spots[0];
  if (stands?.edge === first.edge && stands.toward === first.toward) {
    const spot = changedEnds(context, request.train);
    if (spot === null) return `It is not known where ${who} stands: say it first.`;
    const says = `${who} changes ends here, ${facingWords(railroad, spot)}`;
    const turn: SessionInput = { do: 'train-at', train: request.train, ...spot };
    return more.length === 0
      ? [send(`${says}, then to ${to.label}`, turn, request)]
      : [send(says, turn, { do: 'declare', train: request.train, to: request.to })];
  }
  return [
    send(
      `${who} first to ${spotWords(railroad, first)}; there it changes ends (type: turns)`,
      { do: 'declare', train: request.train, to: request.to },
      { ...request, to: first.edge },
    ),
  ];
}

/** @param to nothing where the word is left out: of a train that is not on the track that would be a placing */
const move = (to: readonly Slot[]): Form =>
  form(
    [
      train(),
      ...to,
      destination(),
      options(
        [word('by', 'via'), blocks('by')],
        [{ is: 'answer', as: 'over', answers: { over: ['over'] }, what: '"over"' }],
        [word('back'), number('back', 'how many times it changes ends', 'times')],
        [word('joining'), thing('joining', ['cut', 'train'], 'a cut or a train')],
        [word('with', 'together'), trains],
      ),
    ],
    (said, context) => {
      if (to.length === 0 && context.state.trains[said.id<TrainId>('train')]?.placed === false)
        return `${said.thing('train').label} is not on the track: say where it stands first.`;
      const request = {
        do: 'request-move' as const,
        train: said.id<TrainId>('train'),
        to: said.id('to'),
        ...(said.has('by') ? { via: [...said.ids<BlockId>('by')] } : {}),
        ...(said.has('over') ? { overhang: true } : {}),
        ...(said.has('joining') ? { joining: said.id('joining') } : {}),
        ...(said.has('with') ? { together: [...said.ids<TrainId>('with')] } : {}),
      };
      return said.has('back') && said.number('back') > 0
        ? backing(said, context, request)
        : [send(`${said.thing('train').label} to ${said.thing('to').label}`, request)];
    },
  );

export const moveForms: readonly Form[] = [move([word('to')]), move([])];
