/** DIALS: the wooden control panel in its rows; large only where a knob is wrong, next or presumed. Touching one offers its positions. */
import { useEffect, useMemo, useRef } from 'react';
import { Arrow } from '../parts/arrow.tsx';
import type { DeskSource } from './desk-source.ts';
import { type Dial, dialRows } from './dial-list.ts';
import type { PendingThrow } from './pending-throw.ts';

interface DialsProps {
  readonly source: DeskSource;
  readonly pending: readonly PendingThrow[];
  readonly openThing: string | null;
  readonly onOpen: (thing: string) => void;
}

/** The same for those who do not see it. */
function dialWords({ name, at, presumed, wrong, to }: Dial): string {
  return [
    `${name} at ${at}`,
    ...(presumed ? ['presumed'] : []),
    ...(wrong ? ['wrong'] : []),
    ...(to === null ? [] : [`next to ${to}`]),
  ].join(', ');
}

export function Dials({ source, pending, openThing, onOpen }: DialsProps) {
  const { railroad, state } = source;
  const rows = useMemo(() => dialRows(railroad, state, pending), [railroad, state, pending]);
  const zone = useRef<HTMLElement>(null);
  const urgent = rows.flat().find(({ wrong, to }) => wrong || to !== null)?.id;
  useEffect(() => {
    if (urgent !== undefined)
      zone.current
        ?.querySelector(`[data-dial="${CSS.escape(urgent)}"]`)
        ?.scrollIntoView({ block: 'nearest' });
  }, [urgent]);
  return (
    <section ref={zone} className="desk-dials" data-zone="dials" aria-label="Dials">
      {rows.map((row) => (
        <ul key={row[0]?.id} className="desk-dial-row">
          {row.map((dial) => (
            <li key={dial.id}>
              <button
                type="button"
                className="desk-dial"
                data-dial={dial.id}
                data-large={dial.wrong || dial.to !== null || dial.presumed || undefined}
                data-wrong={dial.wrong || undefined}
                data-next={dial.to !== null || undefined}
                aria-expanded={openThing === dial.id}
                onClick={() => onOpen(dial.id)}
              >
                <span aria-hidden="true">
                  {dial.mark}:{dial.at}
                  {dial.to === null ? null : (
                    <>
                      <Arrow />
                      {dial.to}
                    </>
                  )}
                  {dial.presumed ? '?' : ''}
                </span>
                <span className="unseen">{dialWords(dial)}</span>
              </button>
            </li>
          ))}
        </ul>
      ))}
    </section>
  );
}
