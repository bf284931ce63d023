/** One evening looked back on: the board as it was, the entries beside it, and the moment to choose. Nothing can be ordered here. */
import { useDeferredValue, useMemo } from 'react';
import { eventWords } from '../../shared-model/logbook/event-words.ts';
import { stateAfter } from '../../shared-model/logbook/replay.ts';
import { Board } from '../board/board.tsx';
import { boardView } from '../board/board-view.ts';
import { liveOptions } from '../board/live-options.ts';
import { EntryList } from './entry-list.tsx';
import { momentText } from './moment-text.ts';
import { ReplayControls } from './replay-controls.tsx';
import { usePlayer } from './use-player.ts';
import type { EveningRecord } from './use-record.ts';

export function EveningReplay({ record }: { readonly record: EveningRecord }) {
  const { card, railroad, replay } = record;
  const { events } = replay;
  const player = usePlayer(events);
  // A scrubber dragged fast asks for more moments than can be drawn; it never waits for the board.
  const position = useDeferredValue(player.position);
  const state = useMemo(() => stateAfter(replay, position), [replay, position]);
  const view = useMemo(() => boardView(railroad, state, liveOptions(railroad, state)), [railroad, state]);
  const event = events[position - 1];
  const words =
    event === undefined
      ? `before entry 1 of ${events.length}`
      : `entry ${position} of ${events.length}, ${momentText(card.openedAt, event.at)}, ${eventWords(railroad, state, event)}`;
  return (
    <section className="replay" aria-label="Replay, not live">
      <header className="replay-head">
        <h2>Replay, not live</h2>
        <p aria-live="polite">{words}</p>
        <p>
          {state.phase.toUpperCase()}
          {state.alarms.length === 0 ? '' : ` · ${state.alarms.length} alarms standing`}
        </p>
      </header>
      <div className="replay-board">
        <Board railroad={railroad} view={view} label="Board, replay, not live" />
      </div>
      <EntryList
        railroad={railroad}
        state={state}
        events={events}
        openedAt={card.openedAt}
        position={position}
        onGo={player.go}
      />
      <ReplayControls events={events} player={player} says={words} />
    </section>
  );
}
