/**
 * A second reading of SITUATION and its runs, straight from the document and the text of design/5-command-line.md: it shares nothing
 * with shared-model/planning, neither with the planner nor with the checker. Plain and slow, for truth and not for use.
 */
import type { BlockId, EdgeId, NodeId, ThrottleId } from '../../shared-model/ids.ts';
import type { SituationJson } from '../../shared-model/planning/situation.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { plainExtent, plainPassages, stateName } from './plain-passages.ts';

/** A directed edge, what lies beyond it, and whether a head may stop at its end. */
export interface PlainSpot {
  readonly name: string;
  readonly edge: EdgeId;
  readonly toward: NodeId;
  readonly lengthMm: number;
  readonly block: BlockId | undefined;
  readonly isStop: boolean;
  readonly gapAhead: boolean;
  readonly next: readonly {
    readonly name: string;
    readonly lever: NodeId | null;
    readonly position: string | null;
  }[];
}

/** A train: directed edges head first, how far the head is short of the end of the first. */
export interface PlainTrain {
  readonly spots: readonly PlainSpot[];
  readonly shortMm: number;
}

/** A run: the spots entered, and where the train stands after it. */
export interface PlainRun {
  readonly entered: readonly PlainSpot[];
  readonly needed: ReadonlySet<BlockId>;
  readonly diamonds: ReadonlySet<NodeId>;
  readonly after: PlainTrain;
}

export interface PlainRailroad {
  readonly document: RailroadDocument;
  spot(name: string): PlainSpot;
  readonly diamonds: ReadonlySet<NodeId>;
}

const NEAR_MM = 1e-6;

export function plainRailroad(document: RailroadDocument): PlainRailroad {
  const kind = new Map(document.nodes.map((node) => [node.id, node.kind]));
  const blockOf = new Map<EdgeId, BlockId>();
  for (const { id } of document.blocks) for (const edge of plainExtent(document, id)) blockOf.set(edge, id);
  const passages = plainPassages(document);
  const spots = new Map<string, PlainSpot>();
  for (const edge of document.edges)
    for (const toward of edge.between) {
      const name = stateName(edge.id, toward);
      const ahead = kind.get(toward);
      spots.set(name, {
        name,
        edge: edge.id,
        toward,
        lengthMm: edge.length,
        block: blockOf.get(edge.id),
        isStop: ahead === 'gap' || ahead === 'end',
        gapAhead: ahead === 'gap',
        next: passages
          .filter(({ from }) => from === name)
          .map(({ to, lever, position }) => ({ name: to, lever, position })),
      });
    }
  return {
    document,
    spot: (name) => {
      const found = spots.get(name);
      if (found === undefined) throw new Error(`no spot ${name}`);
      return found;
    },
    diamonds: new Set(
      document.nodes.filter((node) => node.kind === 'crossing' && node.insulated).map(({ id }) => id),
    ),
  };
}

/** The same edge, faced the other way. */
export function facedBack({ document, spot }: PlainRailroad, { edge, toward }: PlainSpot): PlainSpot {
  const ends = document.edges.find(({ id }) => id === edge)?.between ?? [toward, toward];
  return spot(stateName(edge, ends[0] === toward ? ends[1] : ends[0]));
}

/** The part of the spots that a train of this length lies on. */
function lainOn(spots: readonly PlainSpot[], shortMm: number, lengthMm: number): PlainSpot[] {
  const part: PlainSpot[] = [];
  let covered = -shortMm;
  for (const spot of spots) {
    if (part.length > 0 && covered >= lengthMm - NEAR_MM) break;
    part.push(spot);
    covered += spot.lengthMm;
  }
  return part;
}

/** Lays a train of the situation on the track, as its turnouts stand. */
export function plainTrain(
  railroad: PlainRailroad,
  { edge, toward }: { readonly edge: string; readonly toward: string },
  lengthMm: number,
  turnouts: Readonly<Record<string, string>>,
): PlainTrain {
  const spots = [railroad.spot(stateName(edge, toward))];
  let covered = spots[0]?.lengthMm ?? 0;
  while (covered < lengthMm) {
    const last = spots.at(-1);
    if (last === undefined) break;
    const behind = facedBack(railroad, last).next.find(
      ({ lever, position }) => lever === null || (turnouts[lever] ?? 'normal') === position,
    );
    if (behind === undefined) throw new Error('the train does not fit');
    const spot = facedBack(railroad, railroad.spot(behind.name));
    spots.push(spot);
    covered += spot.lengthMm;
  }
  return { spots, shortMm: 0 };
}

export function plainBlocks({ spots }: PlainTrain): ReadonlySet<BlockId> {
  return new Set(spots.map(({ block }) => block).filter((block) => block !== undefined));
}

/** Insulated crossings between the head and the tail of a train. */
export function plainDiamonds({ diamonds }: PlainRailroad, { spots }: PlainTrain): ReadonlySet<NodeId> {
  return new Set(
    spots
      .slice(1)
      .map(({ toward }) => toward)
      .filter((node) => diamonds.has(node)),
  );
}

function turnedRound(railroad: PlainRailroad, { spots, shortMm }: PlainTrain, lengthMm: number): PlainTrain {
  const total = spots.reduce((sum, spot) => sum + spot.lengthMm, 0);
  const rest = total - shortMm - lengthMm;
  return {
    spots: [...spots].reverse().map((spot) => facedBack(railroad, spot)),
    shortMm: rest < NEAR_MM ? 0 : rest,
  };
}

/** Parents of a section behind toggles, the nearest first. */
function plainParents(document: RailroadDocument, block: BlockId): BlockId[] {
  const source = document.blocks.find(({ id }) => id === block)?.source;
  return source !== undefined && 'toggle' in source
    ? [source.from, ...plainParents(document, source.from)]
    : [];
}

function canBeFed(document: RailroadDocument, block: BlockId, cab: ThrottleId): boolean {
  const root = plainParents(document, block).at(-1) ?? block;
  const source = document.blocks.find(({ id }) => id === root)?.source;
  if (source === undefined || 'toggle' in source) return false;
  if ('throttle' in source) return source.throttle === cab;
  const dial = document.selectors.find(({ id }) => id === source.selector);
  return dial?.positions.includes(cab) === true;
}

/** Every run of a train from where it stands, whatever others do. */
export function plainRuns(
  railroad: PlainRailroad,
  train: PlainTrain,
  lengthMm: number,
  cab: ThrottleId,
  reversals: boolean,
): readonly PlainRun[] {
  const { document } = railroad;
  const found: PlainRun[] = [];
  const from = (start: PlainTrain): void => {
    const head = start.spots[0];
    if (head === undefined) return;
    const lain = new Set(start.spots.map(({ edge }) => edge));
    const walk = (way: readonly PlainSpot[], comeMm: number): void => {
      const here = way.at(-1) ?? head;
      if (here.isStop && (way.length > 0 || start.shortMm > 0)) {
        finish(way);
        return;
      }
      for (const { name } of here.next) {
        const next = railroad.spot(name);
        if (next.block === undefined || lain.has(next.edge)) continue;
        if (way.some(({ edge }) => edge === next.edge)) continue;
        const body = lainOn(
          [...[...way].reverse(), ...start.spots],
          way.length > 0 ? 0 : start.shortMm,
          lengthMm,
        );
        // The head has come to the end of the edge it is on, wherever it began.
        const atNode = way.length > 0 ? body : lainOn(start.spots, 0, lengthMm);
        if (next.block !== here.block) {
          if (atNode.some(({ block }) => block === next.block)) continue;
          if (!canBeFed(document, next.block, cab)) continue;
        }
        if (
          railroad.diamonds.has(here.toward) &&
          plainDiamonds(railroad, { spots: atNode, shortMm: 0 }).has(here.toward)
        )
          continue;
        walk([...way, next], comeMm + next.lengthMm);
      }
    };
    const finish = (way: readonly PlainSpot[]): void => {
      const needed = new Set<BlockId>();
      const diamonds = new Set<NodeId>();
      let before = head;
      for (const spot of way) {
        if (spot.block !== undefined && spot.block !== before.block)
          for (const block of [spot.block, ...plainParents(document, spot.block)]) needed.add(block);
        if (railroad.diamonds.has(before.toward)) diamonds.add(before.toward);
        before = spot;
      }
      const spots = lainOn([...[...way].reverse(), ...start.spots], 0, lengthMm);
      found.push({ entered: way, needed, diamonds, after: { spots, shortMm: 0 } });
    };
    walk([], start.shortMm);
  };
  from(train);
  if (reversals) from(turnedRound(railroad, train, lengthMm));
  return found;
}

/** Every train of a situation as it lies at first. */
export function plainStart(railroad: PlainRailroad, situation: SituationJson): readonly PlainTrain[] {
  return situation.trains.map((train) =>
    plainTrain(railroad, train, lengthOf(railroad, train.train), situation.turnouts ?? {}),
  );
}

export function lengthOf({ document }: PlainRailroad, train: string): number {
  return document.trains.find(({ id }) => id === train)?.length ?? 0;
}
