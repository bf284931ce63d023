/** The wall view for a second display: board, NEXT and SAY alone, to be read by everybody in the room. Nothing can be pressed on it. */
import { useMemo } from 'react';
import { Board } from '../board/board.tsx';
import { boardView } from '../board/board-view.ts';
import { liveOptions } from '../board/live-options.ts';
import { EmptyState } from '../parts/empty-state.tsx';
import { clockSeconds, type DeskSource } from './desk-source.ts';
import { useLiveSource } from './live-source.ts';
import { nextAct, pendingThrows } from './next-act.ts';
import { NextWords } from './next-words.tsx';
import { railroadTime } from './railroad-time.ts';
import { useSaying } from './use-saying.ts';
import './wall.css';

function Wall({ source }: { readonly source: DeskSource }) {
  const { railroad, state, recent } = source;
  const next = useMemo(() => {
    const context = { railroad, state, recent };
    return nextAct(context, pendingThrows(context, []), []);
  }, [railroad, state, recent]);
  const view = useMemo(() => boardView(railroad, state, liveOptions(railroad, state)), [railroad, state]);
  const { now } = useSaying(source, null);
  const stopped = state.phase === 'stopped';
  const time = railroadTime(source);
  return (
    <div className="wall" data-phase={state.phase}>
      <Board railroad={railroad} view={view} label="Board, live" readFrom="wall" />
      <section className="wall-next" data-zone="next" aria-label="Next">
        <p className="wall-far">
          {stopped ? (
            state.stop?.kind === 'break' ? (
              'BREAK'
            ) : (
              'ALL STOP'
            )
          ) : // A way on that nobody has asked for would look granted from across the room.
          next.kind === 'onward' ? null : (
            <NextWords source={source} next={next} />
          )}
        </p>
        <strong className="wall-clock">
          {clockSeconds(source.openedAt, source.seconds)}
          {time === null ? null : <span> railroad {time}</span>}
        </strong>
      </section>
      <section className="wall-say" data-zone="say" aria-label="Say">
        <p className={now?.far === true ? 'wall-far' : undefined}>
          {now === null || (state.alone && !now.far) ? '' : `“${now.words}”`}
        </p>
      </section>
    </div>
  );
}

export function WallScreen() {
  const source = useLiveSource();
  if (source === null || source.state.phase === 'ended')
    return (
      <EmptyState
        title="No evening is open"
        says="The wall view follows the live evening: open one on the Desk."
      />
    );
  return <Wall source={source} />;
}
