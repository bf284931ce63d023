/** The board of a rehearsal, with a word across it that says what it is of; a touch on it can say where a train is to go. */
import { useMemo } from 'react';
import type { BlockId } from '../../shared-model/ids.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { Board } from '../board/board.tsx';
import { boardView } from '../board/board-view.ts';
import type { BoardMark } from '../board/board-words.ts';
import { liveOptions } from '../board/live-options.ts';

/** What the board shows: the rehearsal at some moment, or the evening as it stands now while orders go to it. */
export interface BoardShown {
  readonly of: 'rehearsal' | 'now';
  readonly railroad: Railroad;
  readonly state: SessionState;
  /** What stands against it: blocks that lock the trains, things that a refusal is about. */
  readonly against: readonly string[];
  /** Blocks of the order that is next. */
  readonly next: readonly string[];
}

interface RehearsalBoardProps {
  /** Null while what stands where is wrong. */
  readonly shown: BoardShown | null;
  /** Whether the next block that is touched is taken. */
  readonly picking: boolean;
  readonly onBlock: (block: BlockId) => void;
}

const LABELS: Readonly<Record<BoardShown['of'], string>> = {
  rehearsal: 'Board, rehearsal',
  now: 'Board, as the evening stands now',
};

export function RehearsalBoard({ shown, picking, onBlock }: RehearsalBoardProps) {
  const view = useMemo(() => {
    if (shown === null) return null;
    const { railroad, state, against, next } = shown;
    const options = liveOptions(railroad, state);
    const marks = new Map<string, BoardMark>(options.marks);
    for (const thing of against) marks.set(thing, 'refused');
    const pressable = new Set<string>(picking ? railroad.blocks.keys() : []);
    return boardView(railroad, state, { ...options, marks, next: new Set(next), pressable });
  }, [shown, picking]);
  return (
    <div className="rehearsal-board" data-zone="board" data-of={shown?.of}>
      {view === null || shown === null ? (
        <p className="rehearsal-no-board">The board is drawn when what stands below it is right.</p>
      ) : (
        <Board
          railroad={shown.railroad}
          view={view}
          label={LABELS[shown.of]}
          readFrom="leisure"
          onOpen={(id) => {
            if (picking && shown.railroad.blocks.has(id as BlockId)) onBlock(id as BlockId);
          }}
        />
      )}
      <span className="rehearsal-watermark" aria-hidden="true">
        {shown?.of ?? 'rehearsal'}
      </span>
    </div>
  );
}
