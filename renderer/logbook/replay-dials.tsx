/** The dials as they stood: the wooden control panel in its rows, to look at only. */
import { useMemo } from 'react';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { dialRows } from '../desk/dial-list.ts';
import { pendingThrows } from '../desk/next-act.ts';
import { Arrow } from '../parts/arrow.tsx';

interface DialsProps {
  readonly railroad: Railroad;
  readonly state: SessionState;
  readonly recent: readonly SessionEvent[];
}

export function ReplayDials({ railroad, state, recent }: DialsProps) {
  const rows = useMemo(
    () => dialRows(railroad, state, pendingThrows({ railroad, state, recent }, [])),
    [railroad, state, recent],
  );
  return (
    <section className="replay-dials" aria-label="Dials, as they stood">
      {rows.map((row) => (
        <ul key={row[0]?.id}>
          {row.map(({ id, mark, name, at, presumed, wrong, to }) => (
            <li key={id} data-wrong={wrong || undefined} title={name}>
              {mark}:{at}
              {to === null ? null : (
                <>
                  <Arrow />
                  {to}
                </>
              )}
              {presumed ? <abbr title="presumed">?</abbr> : null}
              {wrong ? <strong> wrong</strong> : null}
            </li>
          ))}
        </ul>
      ))}
    </section>
  );
}
