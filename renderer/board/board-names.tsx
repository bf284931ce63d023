/** Every name on the board: of blocks, turnouts and places where the layout put them, and those beside moving things. */
import type { BlockId } from '../../shared-model/ids.ts';
import { blockMarks } from '../../shared-model/railroad/block-marks.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { type BoardLayout, chainsOf } from './board-layout.ts';
import { BoardName } from './board-name.tsx';
import type { BoardView } from './board-view.ts';
import type { BoardMark } from './board-words.ts';
import type { PlacedLabel } from './label-places.ts';
import { placeKey } from './label-wishes.ts';
import { lineLength, pointAlong } from './polyline.ts';

interface BoardNamesProps {
  readonly railroad: Railroad;
  readonly layout: BoardLayout;
  readonly view: BoardView;
  readonly beside: ReadonlyMap<string, PlacedLabel>;
  readonly hatch: string;
}

/** A turnout whose name found no free spot is named over its ring, whatever lies there, while the next act is about it. */
function overSpot(layout: BoardLayout, id: string): Pick<PlacedLabel, 'middle' | 'words'> | undefined {
  const spot = [...layout.turnouts, ...layout.crossings].find(({ node }) => node.id === id);
  if (spot === undefined) return undefined;
  const [x, y] = spot.at;
  return { middle: [x, y - layout.sizes.capsule / 2 - layout.sizes.line / 2 - 5], words: id };
}

/** So is a block, over the middle of its longest track. */
function overBlock(
  railroad: Railroad,
  layout: BoardLayout,
  id: BlockId,
): Pick<PlacedLabel, 'middle' | 'words'> | undefined {
  const [longest] = chainsOf(layout, id).toSorted((a, b) => lineLength(b.line) - lineLength(a.line));
  if (longest === undefined) return undefined;
  const [x, y] = pointAlong(longest.line, lineLength(longest.line) / 2).at;
  const words = blockMarks(railroad.document).get(id) ?? id;
  return { middle: [x, y - layout.sizes.capsule / 2 - layout.sizes.line / 2], words };
}

export function BoardNames({ railroad, layout, view, beside, hatch }: BoardNamesProps) {
  const letterPx = layout.sizes.letter;
  const at = ({ middle: [x, y], words }: Pick<PlacedLabel, 'middle' | 'words'>) => ({
    x,
    y,
    words,
    letterPx,
    hatch,
  });
  const barred = new Map<string, BoardMark | null>(view.barred.map(({ id, mark }) => [id, mark]));
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of an SVG takes no focus; what is named here says its name itself
    <g aria-hidden="true">
      {railroad.document.places.map(({ id }) => {
        const label = layout.names.get(placeKey(id));
        return label === undefined ? null : <BoardName key={id} kind="place" {...at(label)} />;
      })}
      {view.turnouts.map(({ id, presumed, next, mark, pressable }) => {
        const label = layout.names.get(id) ?? (next ? overSpot(layout, id) : undefined);
        return label === undefined ? null : (
          <BoardName
            key={id}
            kind="turnout"
            {...at(label)}
            presumed={presumed}
            next={next}
            mark={mark}
            opens={pressable ? id : undefined}
          />
        );
      })}
      {view.blocks.map(({ id, state, presumed, limits, next, mark, pressable }) => {
        const label = layout.names.get(id) ?? (next ? overBlock(railroad, layout, id) : undefined);
        return label === undefined ? null : (
          <BoardName
            key={id}
            kind="block"
            {...at(label)}
            owned={state !== 'open'}
            presumed={presumed}
            limits={limits}
            next={next}
            mark={mark}
            opens={pressable ? id : undefined}
          />
        );
      })}
      {[...beside.values()].map((label) => (
        <BoardName
          key={label.key}
          kind={barred.has(label.key) ? 'barred' : 'train'}
          {...at(label)}
          mark={barred.get(label.key) ?? null}
        />
      ))}
    </g>
  );
}
