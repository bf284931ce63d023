/** One evening looked back on: the board, the dials and the cabs as they were, the entries beside them, and the moment to choose. Nothing can be ordered here. */
import { useDeferredValue, useEffect, useMemo, useRef } from 'react';
import { eventWords } from '../../shared-model/logbook/event-words.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { Board } from '../board/board.tsx';
import { boardView } from '../board/board-view.ts';
import { liveOptions } from '../board/live-options.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { AROUND, EntryList } from './entry-list.tsx';
import { momentText } from './moment-text.ts';
import { ReplayControls } from './replay-controls.tsx';
import { ReplayDials } from './replay-dials.tsx';
import { ReplayStrips } from './replay-strips.tsx';
import type { OpenedEvening } from './use-evening.ts';
import { useMarks, useOutline } from './use-marks.ts';
import { type Pieces, usePieces } from './use-pieces.ts';
import { usePlayer, usePosition } from './use-player.ts';
import './replay.css';

interface ReplayProps {
  readonly evening: OpenedEvening;
  /** The second to begin at, as an address names it; the beginning where it is absent. */
  readonly at: number | null;
}

/** Goes to a second once; the host finds its entry. */
function useBeginAt(id: string, at: number | null, go: (position: number) => void): void {
  const { connection } = useConsoleStore();
  useEffect(() => {
    if (at === null) return;
    let wanted = true;
    void connection.call('evenings.entryAt', { id, at }).then((answer) => {
      if (wanted && answer.ok) go(answer.value.entry);
    });
    return () => {
      wanted = false;
    };
  }, [connection, id, at, go]);
}

interface Shown {
  readonly position: number;
  readonly state: SessionState;
}

/** What is shown: the moment that is wanted, as soon as it is here and drawn; until then what was shown before. The scrubber waits for neither. */
function useShown(pieces: Pieces, position: number, initial: SessionState): Shown {
  const wanted = useDeferredValue(position);
  const shown = useRef<Shown>({ position: 0, state: initial });
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is here is another thing after each load, and only then
  const found = useMemo(() => {
    const state = pieces.stateAt(wanted);
    return state === null ? null : { position: wanted, state };
  }, [wanted, pieces.loads]);
  if (found !== null) shown.current = found;
  return shown.current;
}

export function EveningReplay({ evening, at }: ReplayProps) {
  const { card, railroad, initial } = evening;
  const { id, entries, openedAt } = card;
  const place = usePosition(entries);
  const { position } = place;
  const lengths = useConsole((store) => store.settings.lengths);
  const pieces = usePieces(evening, position);
  const player = usePlayer(entries, place, pieces.event);
  const outline = useOutline(id);
  const marks = useMarks(id, position);
  useBeginAt(id, at, place.go);
  const now = useShown(pieces, position, initial);
  const { state } = now;
  const view = useMemo(() => boardView(railroad, state, liveOptions(railroad, state)), [railroad, state]);
  const event = pieces.event(now.position);
  // While another part of the evening is on its way, the entry shown may be gone already; its state is here.
  const words =
    event === null
      ? now.position === 0
        ? `before entry 1 of ${entries}`
        : `entry ${now.position} of ${entries}, ${momentText(openedAt, state.at)}`
      : `entry ${now.position} of ${entries}, ${momentText(openedAt, event.at)}, ${eventWords(railroad, state, event, lengths)}`;
  return (
    <section className="replay" aria-label="Replay, not live" aria-busy={now.position !== position}>
      <header className="replay-head">
        <h2>Replay, not live</h2>
        <p aria-live="polite">{words}</p>
        <p>
          {state.phase.toUpperCase()}
          {state.alarms.length === 0 ? '' : ` · ${state.alarms.length} alarms standing`}
        </p>
        {pieces.problem === null ? null : <p role="alert">{pieces.problem}</p>}
      </header>
      <div className="replay-board">
        <Board railroad={railroad} view={view} label="Board, replay, not live" />
      </div>
      <div className="replay-below">
        <ReplayStrips railroad={railroad} state={state} />
        <ReplayDials
          railroad={railroad}
          state={state}
          recent={pieces.events(now.position - AROUND, now.position)}
        />
      </div>
      <EntryList
        railroad={railroad}
        state={state}
        events={pieces.events(now.position - AROUND + 1, now.position + AROUND)}
        openedAt={openedAt}
        position={now.position}
        onGo={player.go}
      />
      <ReplayControls entries={entries} outline={outline} player={player} marks={marks} says={words} />
    </section>
  );
}
