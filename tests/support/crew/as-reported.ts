/**
 * Whether what a crew did was safe, read from what was reported and when, and from nothing that was planned: whoever runs slower than
 * planned, or throws more slowly, is judged too. That the knobs stood right, and who had what, the session's own engine has judged.
 */
import type { BlockId, TrainId } from '../../../shared-model/ids.ts';
import type { PlanOptions } from '../../../shared-model/planning/plan/options.ts';
import type { Situation } from '../../../shared-model/planning/situation.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { SessionState, TrainNow } from '../../../shared-model/session/state.ts';
import { entriesOf } from '../../../shared-model/session/world.ts';
import { modelSpeed } from '../../../shared-model/units.ts';
import type { Carried } from './crew-wishes.ts';
import { touchedBy } from './pair-of-hands.ts';

/** Times are rounded, and compared to no less. */
const HAIR = 0.003;

interface Stay {
  readonly train: TrainId;
  readonly block: BlockId;
  readonly from: number;
  till: number;
}

/** Who was in which block from when till when; seconds since the beginning. */
function staysOf(begun: SessionState, { events }: Pick<Carried, 'events'>): readonly Stay[] {
  const stays: Stay[] = entriesOf<TrainId, TrainNow>(begun.trains).flatMap(([train, { blocks }]) =>
    blocks.map((block) => ({ train, block, from: Number.NEGATIVE_INFINITY, till: Number.POSITIVE_INFINITY })),
  );
  for (const { at, input } of events) {
    if (input.do === 'train-entered')
      stays.push({
        train: input.train,
        block: input.block,
        from: at - begun.at,
        till: Number.POSITIVE_INFINITY,
      });
    if (input.do !== 'train-cleared') continue;
    const over = stays.find(
      ({ train, block, till }) =>
        train === input.train && block === input.block && till === Number.POSITIVE_INFINITY,
    );
    if (over !== undefined) over.till = at - begun.at;
  }
  return stays;
}

/** Moves that took less time than the start and the way at the planned speed. */
function tooFast(
  railroad: Railroad,
  { trains }: Situation,
  { moves }: Carried,
  { startSeconds }: PlanOptions,
): readonly string[] {
  return moves.flatMap(({ train, start, end, edges }) => {
    const mph = trains.find(({ id }) => id === train)?.mph ?? 0;
    const mm = edges.reduce((sum, edge) => sum + (railroad.edges.get(edge)?.length ?? 0), 0);
    const least = startSeconds + mm / modelSpeed(mph, railroad.document.scaleRatio);
    return end - start < least - HAIR ? [`${train} from ${start} till ${end}: it takes ${least}`] : [];
  });
}

/** Starts without words of their own before them, and words of two at a time. */
function unheard({ words, moves }: Carried, { talkSeconds }: PlanOptions): readonly string[] {
  const mixed = words.filter(({ at }, place) => at < (words[place - 1]?.till ?? 0) - HAIR);
  const short = words.filter(({ at, till }) => till - at < talkSeconds - HAIR);
  const left = [...words];
  const untold = moves.filter(({ train, start }) => {
    const own = left.findIndex((one) => one.train === train && one.till <= start + HAIR);
    if (own >= 0) left.splice(own, 1);
    return own < 0;
  });
  return [
    ...[...mixed, ...short].map(({ train, at }) => `the words to ${train} at ${at}`),
    ...untold.map(({ train, start }) => `no words before the start of ${train} at ${start}`),
  ];
}

/** What was not right, in words; nothing where all was. */
export function wrongAsReported(
  railroad: Railroad,
  situation: Situation,
  begun: SessionState,
  done: Carried,
  options: PlanOptions,
): readonly string[] {
  const { marginSeconds, throwsPerMinute } = options;
  const stays = staysOf(begun, done);
  const tooNear = stays.flatMap((stay) =>
    stays
      .filter(
        (other) =>
          other !== stay &&
          other.block === stay.block &&
          other.from >= stay.from &&
          other.from < stay.till + marginSeconds - HAIR &&
          other.train !== stay.train,
      )
      .map((other) => `${other.train} into ${stay.block} at ${other.from}: ${stay.train} till ${stay.till}`),
  );
  /** A toggle may be put off under a train that does not move any more. */
  const rests = ({ train, till }: Stay, at: number): boolean =>
    till === Number.POSITIVE_INFINITY &&
    !done.moves.some((move) => move.train === train && move.end > at + HAIR);
  const under = done.throws.flatMap(({ at, till, kind, id, to }) => {
    const touched = touchedBy(railroad, { kind, id, to } as never);
    return stays
      .filter(({ block }) => touched.includes(block))
      .filter((stay) => stay.from < till + marginSeconds - HAIR && stay.till + marginSeconds > at + HAIR)
      .filter((stay) => !(kind === 'toggle' && to === false && rests(stay, at)))
      .map(({ train, block }) => `${id} to ${to} at ${at}: ${train} is in ${block}`);
  });
  const hands = done.throws.flatMap(({ at, id }, place) => {
    const before = done.throws[place - 1];
    const minute = done.throws[place - throwsPerMinute];
    return (before !== undefined && before.till > at + HAIR) ||
      (minute !== undefined && at < minute.at + 60 - HAIR)
      ? [`${id} at ${at}: the hands are not free`]
      : [];
  });
  return [
    ...tooNear,
    ...under,
    ...hands,
    ...tooFast(railroad, situation, done, options),
    ...unheard(done, options),
  ];
}
