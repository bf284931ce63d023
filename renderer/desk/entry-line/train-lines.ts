/** Lines that begin with a train: moves, reports, limits, cuts, cabs. */
import type { BlockId, CutId, EdgeId, NodeId, ThrottleId, TrainId } from '../../../shared-model/ids.ts';
import { isStop } from '../../../shared-model/railroad/travel.ts';
import { authorityOf } from '../../../shared-model/session/facts/authorities.ts';
import { trainsIn } from '../../../shared-model/session/facts/standing.ts';
import { expects, type Meaning, say } from './meaning.ts';
import { find } from './names.ts';
import { findDestination, type Reading, withBlocks, withFound } from './read-line.ts';
import { readBlockLine } from './thing-lines.ts';

const KEYWORDS = ['by', 'over', 'joining', 'together'];

/** The words up to the next keyword, and the rest. */
function untilKeyword(
  words: readonly string[],
  keywords: readonly string[] = KEYWORDS,
): readonly [string, readonly string[]] {
  const at = words.findIndex((word) => keywords.includes(word.toLowerCase()));
  return at < 0 ? [words.join(' '), []] : [words.slice(0, at).join(' '), words.slice(at)];
}

interface MoveExtras {
  readonly via?: string;
  readonly overhang?: true;
  readonly joining?: string;
  readonly together?: string;
}

function extrasOf(words: readonly string[]): MoveExtras | string {
  let extras: MoveExtras = {};
  for (let rest = words; rest.length > 0; ) {
    const [word, ...more] = rest;
    if (word === 'over') {
      extras = { ...extras, overhang: true };
      rest = more;
      continue;
    }
    const [value, left] = untilKeyword(more);
    if (value === '') return `Expected something after "${word ?? ''}".`;
    extras = { ...extras, [word === 'by' ? 'via' : (word ?? '')]: value };
    rest = left;
  }
  return extras;
}

function readMove(reading: Reading, train: TrainId, words: readonly string[]): Meaning {
  const [typed, more] = untilKeyword(words);
  const extras = extrasOf(
    more.map((word) => (KEYWORDS.includes(word.toLowerCase()) ? word.toLowerCase() : word)),
  );
  if (typeof extras === 'string') return expects(extras);
  return withFound(findDestination(reading, typed), 'a block or a place', typed, (to) => {
    const base = { do: 'request-move' as const, train, to, ...(extras.overhang ? { overhang: true } : {}) };
    const joined = (via: readonly string[] | undefined): Meaning => {
      const withVia = via === undefined ? base : { ...base, via: via as never[] };
      if (extras.joining === undefined && extras.together === undefined) return say(withVia);
      if (extras.together !== undefined)
        return withFound(find(reading.names.trains, extras.together), 'a train', extras.together, (other) =>
          say({ ...withVia, together: [other] }),
        );
      const joining = extras.joining ?? '';
      return withFound(
        find<string>([...reading.names.cuts, ...reading.names.trains], joining),
        'a train or a cut',
        joining,
        (other) => say({ ...withVia, joining: other }),
      );
    };
    return extras.via === undefined ? joined(undefined) : withBlocks(reading, extras.via, joined);
  });
}

/** Every edge of a block with a gap or an end of track, as a place to stop. */
function stopsOf(
  railroad: Reading['railroad'],
  block: BlockId,
): readonly { readonly edge: EdgeId; readonly toward: NodeId }[] {
  return (railroad.edgesOfBlock.get(block) ?? []).flatMap((edge) =>
    (railroad.edges.get(edge)?.between ?? [])
      .filter((node) => isStop(railroad, node))
      .map((toward) => ({ edge, toward })),
  );
}

/** Where a train may stand in a block: every edge of it with a stop at an end, nearest to how it faces now first. */
function spotIn(
  { railroad, state }: Reading,
  block: BlockId,
  train: TrainId,
): { readonly edge: EdgeId; readonly toward: NodeId } | null {
  const spots = stopsOf(railroad, block);
  const held = authorityOf(state, train)?.authority;
  const onWay = held?.legs.find((leg) => leg.block === block)?.spots.at(-1);
  const before = state.trains[train]?.trail.find((spot) =>
    spots.some(({ edge, toward }) => edge === spot.edge && toward === spot.toward),
  );
  return onWay ?? before ?? spots[0] ?? null;
}

function readAt(reading: Reading, train: TrainId, typed: string): Meaning {
  return withFound(find(reading.names.blocks, typed), 'a block', typed, (block) => {
    const spot = spotIn(reading, block, train);
    return spot === null
      ? expects('No train can stop in that block.')
      : say({ do: 'train-at', train, ...spot });
  });
}

/** `7 stands in 3 c1 toward 4`: placed on a cab, facing the block named last (else the first way it may face). */
function readStands(reading: Reading, train: TrainId, rest: readonly string[]): Meaning {
  const words = rest[0]?.toLowerCase() === 'in' ? rest.slice(1) : rest;
  const [where, facing] = untilKeyword(words, ['toward']);
  const parts = where.split(' ');
  const last = parts.at(-1) ?? '';
  const cab = /^c./i.test(last) ? find(reading.names.cabs, last) : ({ kind: 'none' } as const);
  const typed = cab.kind === 'one' ? parts.slice(0, -1).join(' ') : where;
  const { railroad } = reading;
  return withFound(find(reading.names.blocks, typed), 'a block', typed, (block) => {
    const spots = stopsOf(railroad, block);
    const ahead = facing.length === 0 ? null : find(reading.names.blocks, facing.slice(1).join(' '));
    const leads = spots.find(
      ({ edge, toward }) =>
        ahead?.kind === 'one' &&
        (railroad.edgesAt.get(toward) ?? []).some(
          (other) => other !== edge && railroad.blockOfEdge.get(other) === ahead.id,
        ),
    );
    const spot = leads ?? spots[0];
    if (spot === undefined || (ahead !== null && leads === undefined))
      return expects('No train can stand in that block facing that way.');
    return say({ do: 'place-train', train, ...spot, ...(cab.kind === 'one' ? { cab: cab.id } : {}) });
  });
}

/** "7 in" is its next block; "7 in 6" catches up. */
function readIn(reading: Reading, train: TrainId, typed: string): Meaning {
  if (typed !== '')
    return withFound(find(reading.names.blocks, typed), 'a block', typed, (block) =>
      say({ do: 'train-entered', train, block }),
    );
  const held = authorityOf(reading.state, train)?.authority;
  const next = held?.legs[held.at + 1];
  return next === undefined
    ? expects('It has no block ahead: say in which block it is.')
    : say({ do: 'train-entered', train, block: next.block });
}

/** "7 clear" is the last block it is in; "7 clear 3" names it. */
function readClear(reading: Reading, train: TrainId, typed: string): Meaning {
  if (typed !== '')
    return withFound(find(reading.names.blocks, typed), 'a block', typed, (block) =>
      say({ do: 'train-cleared', train, block }),
    );
  const blocks = reading.state.trains[train]?.blocks ?? [];
  const last = blocks.at(-1);
  return last === undefined || blocks.length < 2
    ? expects('It is in one block only: say of which it is clear.')
    : say({ do: 'train-cleared', train, block: last });
}

function readCab(reading: Reading, train: TrainId, cab: ThrottleId, rest: readonly string[]): Meaning {
  if (rest[0]?.toLowerCase() !== 'at') return say({ do: 'change-cab', train, cab });
  const typed = rest.slice(1).join(' ');
  return withFound(find(reading.names.blocks, typed), 'a block', typed, (block) =>
    say({ do: 'hand-off', train, block, toCab: cab }),
  );
}

function readSets(reading: Reading, train: TrainId, rest: readonly string[]): Meaning {
  const [cut, length, word, ...where] = rest;
  const millimetres = Number(length);
  if (cut === undefined || !(millimetres > 0) || word?.toLowerCase() !== 'in')
    return expects('Expected: 7 sets cut3 600 in 9.');
  return withFound(find(reading.names.blocks, where.join(' ')), 'a block', where.join(' '), (block) => {
    const spot = spotIn(reading, block, train);
    return spot === null
      ? expects('Nothing can stand in that block.')
      : say({ do: 'set-out', train, cut: cut as CutId, length: millimetres, ...spot });
  });
}

function readLimits(reading: Reading, train: TrainId, rest: readonly string[]): Meaning {
  const [, word, ...where] = rest;
  if (word?.toLowerCase() !== 'at') return expects('Expected: 7 done limits at 8.');
  return withFound(find(reading.names.blocks, where.join(' ')), 'a block', where.join(' '), (block) => {
    const spot = spotIn(reading, block, train);
    return spot === null
      ? expects('No train can stop in that block.')
      : say({ do: 'release-limits', train, ...spot });
  });
}

/** Other trains in the same block: whom a train that couples may mean. */
function neighbour(reading: Reading, train: TrainId, typed: string): Meaning {
  if (typed !== '')
    return withFound(find(reading.names.trains, typed), 'a train', typed, (other) =>
      say({ do: 'couple', train, other }),
    );
  const here = (reading.state.trains[train]?.blocks ?? [])
    .flatMap((block) => trainsIn(reading, block))
    .filter((other) => other !== train);
  const [only] = here;
  return only === undefined
    ? expects('Expected the other train.')
    : say({ do: 'couple', train, other: only });
}

/**
 * Reads what follows a train.
 *
 * @param first how the train was typed: a number may also be a disputed block, which is settled
 */
export function readTrainLine(
  reading: Reading,
  train: TrainId,
  words: readonly string[],
  first: string,
): Meaning {
  const [verb, ...rest] = words;
  const typed = rest.join(' ');
  switch (verb?.toLowerCase()) {
    case undefined:
      return expects(
        'Expected what the train does: to …, in, clear, stopped, at …, limits …, sets …, takes …, c2.',
      );
    case 'to':
      return readMove(reading, train, rest);
    case 'in':
      return readIn(reading, train, typed);
    case 'clear':
      return readClear(reading, train, typed);
    case 'at':
      return readAt(reading, train, typed);
    case 'was':
      return rest[0]?.toLowerCase() === 'in'
        ? readAt(reading, train, rest.slice(1).join(' '))
        : expects('Expected: 7 was in 5.');
    case 'stands':
      return readStands(reading, train, rest);
    case 'stopped':
      return say({ do: 'train-stopped', train });
    case 'stalled':
      return say({ do: 'stalled', train });
    case 'derailed':
      return say({ do: 'derailed', train });
    case 'rerailed':
      return say({ do: 'rerailed', train });
    case 'off':
      return say({ do: 'take-off', train });
    case 'advance':
      return say({ do: 'advance', train });
    case 'withdraw':
      return say({ do: 'withdraw', train });
    case 'limits':
      return withBlocks(reading, typed, (blocks) => say({ do: 'grant-limits', train, blocks: [...blocks] }));
    case 'done':
      return readLimits(reading, train, rest);
    case 'sets':
      return readSets(reading, train, rest);
    case 'takes':
      return withFound(find(reading.names.cuts, typed), 'a cut', typed, (cut) =>
        say({ do: 'pick-up', train, cut }),
      );
    case 'couples':
      return neighbour(reading, train, typed);
    case 'is': {
      const settled = readBlockLine(reading, first, words);
      if (settled !== null) return settled;
      const [length, amps] = rest.map(Number);
      return length !== undefined && length > 0 && amps !== undefined && amps >= 0
        ? say({ do: 'make-up', train, length, amps })
        : expects('Expected: 7 is 1400 3.2 (millimetres and amperes).');
    }
    case 'ends':
      return withFound(findDestination(reading, typed), 'a block or a place', typed, (to) =>
        say({ do: 'declare', train, to }),
      );
    default: {
      const cab = find(
        reading.names.cabs.map((named) => ({
          ...named,
          words: named.words.filter((word) => word.startsWith('c')),
        })),
        verb ?? '',
      );
      if (cab.kind === 'one') return readCab(reading, train, cab.id, rest);
      return expects(
        `A train does not "${verb ?? ''}": to, in, clear, stopped, at, limits, done limits, sets, takes, ends, c2 …`,
      );
    }
  }
}
