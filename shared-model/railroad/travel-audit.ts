/** What trains can do: track that none can reach, and blocks in which the longest does not fit. */
import type { EdgeId } from '../ids.ts';
import type { Finding } from '../refusal.ts';
import type { Millimetres } from '../units.ts';
import type { Block } from './document.ts';
import { finding, inWords } from './findings.ts';
import type { Railroad } from './railroad.ts';
import { type Onward, onward, type Spot } from './travel.ts';

/** Pieces of track within which legal travel, whatever the turnouts, leads from edge to edge; each in the file's order. */
export function travelPieces(railroad: Railroad): readonly (readonly EdgeId[])[] {
  const piece = new Map<EdgeId, number>();
  let count = 0;
  for (const { id } of railroad.document.edges) {
    if (piece.has(id)) continue;
    const waiting = [id];
    for (let edge = waiting.pop(); edge !== undefined; edge = waiting.pop()) {
      if (piece.has(edge)) continue;
      piece.set(edge, count);
      for (const toward of railroad.edges.get(edge)?.between ?? [])
        waiting.push(...onward(railroad, { edge, toward }).map((next) => next.edge));
    }
    count += 1;
  }
  const pieces = Array.from({ length: count }, (): EdgeId[] => []);
  for (const { id } of railroad.document.edges) pieces[piece.get(id) ?? 0]?.push(id);
  return pieces;
}

const total = (railroad: Railroad, edges: readonly EdgeId[]): Millimetres =>
  edges.reduce((sum, edge) => sum + (railroad.edges.get(edge)?.length ?? 0), 0);

function unreachable(railroad: Railroad): readonly Finding[] {
  const warning = finding('unreachable', 'warning');
  const pieces = travelPieces(railroad);
  const largest = pieces.reduce<readonly EdgeId[]>(
    (best, piece) => (total(railroad, piece) > total(railroad, best) ? piece : best),
    [],
  );
  return pieces
    .filter((piece) => piece !== largest)
    .map((piece) =>
      warning(
        piece,
        `No train can get from ${inWords(piece)} to the largest piece of the track, whatever the turnouts.`,
        'Join it with an edge and a turnout, or leave it if it is a railroad of its own.',
      ),
    );
}

/** Steps after which a block is taken as long enough: it has so many ways through that a train will find room. */
const MOST_STEPS = 20_000;

/** Whether some way through the edges of a block, no edge of it twice, is at least so long. */
function hasRunOf(railroad: Railroad, edges: readonly EdgeId[], lengthMm: Millimetres): boolean {
  const inside = new Set(edges);
  let steps = 0;
  const goOn = (spot: Spot | Onward, before: ReadonlySet<EdgeId>, so: Millimetres): boolean => {
    steps += 1;
    const length = so + (railroad.edges.get(spot.edge)?.length ?? 0);
    if (length >= lengthMm || steps > MOST_STEPS) return true;
    const used = new Set([...before, spot.edge]);
    return onward(railroad, spot).some(
      (next) => inside.has(next.edge) && !used.has(next.edge) && goOn(next, used, length),
    );
  };
  return edges.some((edge) =>
    (railroad.edges.get(edge)?.between ?? []).some((toward) => goOn({ edge, toward }, new Set(), 0)),
  );
}

/** A block whose feeders are on track that counts as another block's is left to `two-sources`. */
const isOvershadowed = (railroad: Railroad, block: Block): boolean =>
  block.feeders.length > 0 && (railroad.edgesOfBlock.get(block.id) ?? []).length === 0;

function shortBlocks(railroad: Railroad): readonly Finding[] {
  const warning = finding('short-block', 'warning');
  const trains = railroad.document.trains;
  const longest = trains.reduce((best, train) => (train.length > best.length ? train : best), {
    length: 0,
    id: '',
  });
  return railroad.document.blocks.flatMap((block) => {
    const edges = railroad.edgesOfBlock.get(block.id) ?? [];
    if (isOvershadowed(railroad, block) || longest.length === 0 || hasRunOf(railroad, edges, longest.length))
      return [];
    return [
      warning(
        [block.id],
        edges.length === 0
          ? `Block ${block.id} has no feeder, so that no track is in it.`
          : `No track in block ${block.id} is as long as the longest train, ${longest.id} with ${longest.length} mm.`,
        edges.length === 0
          ? 'Put its feeder on a section of track, or take the block out.'
          : 'A train that stops here may stand in two blocks: lengthen it, or keep long trains from stopping in it.',
      ),
    ];
  });
}

/** Findings about travel, on a railroad without broken references. */
export function auditTravel(railroad: Railroad): readonly Finding[] {
  return [...unreachable(railroad), ...shortBlocks(railroad)];
}
