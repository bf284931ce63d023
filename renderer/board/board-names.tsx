/** Every name on the board: of blocks, turnouts and places where the layout put them, and those beside moving things. */
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { BoardLayout } from './board-layout.ts';
import { BoardName } from './board-name.tsx';
import type { BoardView } from './board-view.ts';
import type { PlacedLabel } from './label-places.ts';
import { placeKey } from './label-wishes.ts';

interface BoardNamesProps {
  readonly railroad: Railroad;
  readonly layout: BoardLayout;
  readonly view: BoardView;
  readonly beside: ReadonlyMap<string, PlacedLabel>;
  readonly hatch: string;
}

export function BoardNames({ railroad, layout, view, beside, hatch }: BoardNamesProps) {
  const letterPx = layout.sizes.letter;
  const at = ({ middle: [x, y], words }: PlacedLabel) => ({ x, y, words, letterPx, hatch });
  const barred = new Set<string>(view.barred.map(({ id }) => id));
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of an SVG takes no focus; what is named here says its name itself
    <g aria-hidden="true">
      {railroad.document.places.map(({ id }) => {
        const label = layout.names.get(placeKey(id));
        return label === undefined ? null : <BoardName key={id} kind="place" {...at(label)} />;
      })}
      {view.turnouts.map(({ id, presumed, next, mark }) => {
        const label = layout.names.get(id);
        return label === undefined ? null : (
          <BoardName key={id} kind="turnout" {...at(label)} presumed={presumed} next={next} mark={mark} />
        );
      })}
      {view.blocks.map(({ id, state, presumed, next, mark }) => {
        const label = layout.names.get(id);
        return label === undefined ? null : (
          <BoardName
            key={id}
            kind="block"
            {...at(label)}
            owned={state !== 'open'}
            presumed={presumed}
            next={next}
            mark={mark}
          />
        );
      })}
      {[...beside.values()].map((label) => (
        <BoardName key={label.key} kind={barred.has(label.key) ? 'barred' : 'train'} {...at(label)} />
      ))}
    </g>
  );
}
