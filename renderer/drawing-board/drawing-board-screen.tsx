/** The drawing board: the railroads of this console, and each of them under its own address (`#/drawing-board/5/wiring`). */
import { Act } from '../parts/act.tsx';
import { EmptyState } from '../parts/empty-state.tsx';
import { screenRest } from '../shell/address.ts';
import { useHash } from '../shell/use-hash.ts';
import { Editor } from './editor.tsx';
import { sheetAt } from './sheets.ts';
import { Library } from './start/library.tsx';
import { QUICK_START, QuickStart } from './start/quick-start.tsx';
import { saveRailroad } from './start/save-file.ts';
import { DrawingProvider, useOpenDrawing } from './use-drawing.tsx';
import './drawing-board.css';

function OpenRailroad({ id, sheet }: { readonly id: string; readonly sheet: string | undefined }) {
  const opening = useOpenDrawing(id);
  switch (opening.kind) {
    case 'opening':
      return null;
    case 'not-found':
      return (
        <EmptyState title="There is no such railroad" says={opening.says}>
          <a href="#/drawing-board">To the list of railroads</a>
        </EmptyState>
      );
    case 'malformed':
      return (
        <EmptyState
          title="This draft cannot be drawn"
          says={`It is kept as it is, and never run. ${opening.malformed.path}: ${opening.malformed.says}.`}
        >
          <a href="#/drawing-board">To the list of railroads</a>
          <Act kind="calm" onPress={() => saveRailroad('draft', opening.document)}>
            Export it as it is
          </Act>
        </EmptyState>
      );
    case 'open':
      return (
        <DrawingProvider store={opening.store}>
          <Editor current={sheetAt(sheet)} />
        </DrawingProvider>
      );
  }
}

export function DrawingBoardScreen() {
  const [id, sheet] = screenRest(useHash());
  if (id === QUICK_START) return <QuickStart />;
  return id === undefined ? <Library /> : <OpenRailroad id={id} sheet={sheet} />;
}
