/** The Logbook: `#/logbook` lists the evenings; `#/logbook/ID` replays one, `#/logbook/ID/at/SECONDS` from a second on; `/charts`, `/figures` and `/sheet` are its other parts. */
import { useEffect, useRef } from 'react';
import { screenRest } from '../shell/address.ts';
import { useHash } from '../shell/use-hash.ts';
import { EveningList } from './evening-list.tsx';
import { OneEvening, type Part } from './one-evening.tsx';
import './logbook.css';

const PARTS: readonly (readonly [Part, string])[] = [
  ['replay', 'Replay'],
  ['charts', 'Charts'],
  ['figures', 'Figures'],
  ['sheet', 'Train sheet'],
];

/** The second after `at` in an address; null where there is none. */
function secondOf(part: string | undefined, second: string | undefined): number | null {
  const at = part === 'at' && second !== undefined ? Number(second) : Number.NaN;
  return Number.isFinite(at) ? at : null;
}

export function LogbookScreen() {
  const [id, part, second] = screenRest(useHash());
  const scroller = useRef<HTMLDivElement>(null);
  // Another part begins at its top.
  // biome-ignore lint/correctness/useExhaustiveDependencies: it follows the address and nothing else
  useEffect(() => {
    scroller.current?.scrollTo(0, 0);
  }, [id, part]);
  if (id === undefined)
    return (
      <div className="logbook">
        <EveningList />
      </div>
    );
  const shown = PARTS.find(([name]) => name === part)?.[0] ?? 'replay';
  const address = `#/logbook/${encodeURIComponent(id)}`;
  return (
    <div className="logbook" ref={scroller}>
      <nav className="logbook-acts logbook-nav" aria-label="Logbook">
        <a className="logbook-open" href="#/logbook">
          All evenings
        </a>
        {PARTS.map(([name, says]) => (
          <a
            key={name}
            className="logbook-open"
            href={name === 'replay' ? address : `${address}/${name}`}
            aria-current={name === shown ? 'true' : undefined}
          >
            {says}
          </a>
        ))}
      </nav>
      <OneEvening key={id} id={id} part={shown} at={secondOf(part, second)} />
    </div>
  );
}
