/** BOARD: the railroad with what is refused, alarmed and next marked on it. Touching a block or turnout opens what can be said of it. */
import { useMemo } from 'react';
import { Board } from '../board/board.tsx';
import { boardView } from '../board/board-view.ts';
import type { BoardMark } from '../board/board-words.ts';
import { liveOptions } from '../board/live-options.ts';
import type { DeskSource } from './desk-source.ts';
import type { Desk } from './use-desk.ts';

const LABELS: Readonly<Record<DeskSource['kind'], string>> = {
  live: 'Board, live',
  rehearsal: 'Board, rehearsal',
  replay: 'Board, replay',
};

/** What the next act is about: the thing to throw and its block, the block that is asked after, or those that an order of the plan takes its train into. */
function nextThings({ next }: Desk): ReadonlySet<string> {
  switch (next.kind) {
    case 'throw':
      return new Set([String(next.pending.thrown.id), next.pending.thrown.block]);
    case 'clear':
      return new Set([next.block]);
    case 'planned':
      return new Set(next.planned.order.enters.map(({ block }) => block));
    case 'ask':
    case 'onward':
    case 'nothing':
      return new Set();
  }
}

interface BoardZoneProps {
  readonly source: DeskSource;
  readonly desk: Desk;
  readonly onOpen: (thing: string) => void;
}

export function BoardZone({ source, desk, onOpen }: BoardZoneProps) {
  const { railroad, state, kind } = source;
  const refused = desk.answer?.kind === 'refused' ? desk.answer.event : null;
  const things = useMemo(() => nextThings(desk), [desk]);
  const view = useMemo(() => {
    const live = liveOptions(railroad, state);
    const marks = new Map<string, BoardMark>(live.marks);
    for (const { about } of refused?.reasons ?? [])
      for (const thing of about) if (!marks.has(thing)) marks.set(thing, 'refused');
    const pressable = new Set([...Object.keys(state.blocks), ...Object.keys(state.turnouts)]);
    return boardView(railroad, state, { ...live, marks, next: things, pressable });
  }, [railroad, state, refused, things]);
  const nextTrain = desk.next.kind === 'throw' ? desk.next.pending.train : null;
  return (
    <div className="desk-board">
      <Board
        railroad={railroad}
        view={view}
        label={LABELS[kind]}
        readFrom={kind === 'rehearsal' ? 'leisure' : 'desk'}
        onOpen={onOpen}
        follow={nextTrain ?? desk.picked ?? undefined}
      />
    </div>
  );
}
