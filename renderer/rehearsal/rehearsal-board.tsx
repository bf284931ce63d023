/** The board of a rehearsal, with a word across it that says that it is not live; a touch on it can say where a train is to go. */
import { useMemo } from 'react';
import type { BlockId } from '../../shared-model/ids.ts';
import { Board } from '../board/board.tsx';
import { boardView } from '../board/board-view.ts';
import type { BoardMark } from '../board/board-words.ts';
import { liveOptions } from '../board/live-options.ts';
import type { Rehearsal } from './use-rehearsal.ts';
import { lockedBlocks } from './verdict.tsx';

interface RehearsalBoardProps {
  readonly rehearsal: Rehearsal;
  readonly step: number;
  /** The train that a touched block is the destination of. */
  readonly picked: string | null;
  readonly onPicked: () => void;
}

/** As it stands at the step that is looked at. */
export function RehearsalBoard({ rehearsal, step, picked, onPicked }: RehearsalBoardProps) {
  const { origin, fork, seen } = rehearsal;
  const answer = rehearsal.safe.state;
  const state = step === 0 ? fork?.evening.state : seen?.played.steps[step - 1]?.state;
  const locked = useMemo(() => lockedBlocks(answer), [answer]);
  const view = useMemo(() => {
    if (state === undefined) return null;
    const options = liveOptions(origin.railroad, state);
    const marks = new Map<string, BoardMark>(options.marks);
    for (const block of locked) marks.set(block, 'refused');
    const pressable = new Set<string>(picked === null ? [] : origin.railroad.blocks.keys());
    return boardView(origin.railroad, state, { ...options, marks, pressable });
  }, [origin.railroad, state, locked, picked]);
  const goTo = (block: string) => {
    const { json, change } = rehearsal;
    if (picked === null || !origin.railroad.blocks.has(block as BlockId)) return;
    const to = block as BlockId;
    change({
      ...json,
      trains: json.trains.map((train) => (train.train === picked ? { ...train, to } : train)),
    });
    onPicked();
  };
  return (
    <div className="rehearsal-board" data-zone="board">
      {view === null ? (
        <p className="rehearsal-no-board">The board is drawn when what stands below it is right.</p>
      ) : (
        <Board railroad={origin.railroad} view={view} label="Board, rehearsal" onOpen={goTo} />
      )}
      <span className="rehearsal-watermark" aria-hidden="true">
        rehearsal
      </span>
    </div>
  );
}
