/** The Logbook: `#/logbook` lists the evenings, `#/logbook/ID` replays one, `#/logbook/ID/sheet` has its sheet and figures. */
import { EmptyState } from '../parts/empty-state.tsx';
import { screenRest } from '../shell/address.ts';
import { useHash } from '../shell/use-hash.ts';
import { EveningFigures } from './evening-figures.tsx';
import { EveningList } from './evening-list.tsx';
import { EveningReplay } from './evening-replay.tsx';
import { useRecord } from './use-record.ts';
import './logbook.css';

function OneEvening({ id, part }: { readonly id: string; readonly part: string | undefined }) {
  const reading = useRecord(id);
  if (reading.is === 'failed') return <EmptyState title="This evening cannot be read" says={reading.says} />;
  if (reading.is === 'reading')
    return (
      <p role="status">
        Reading the evening{reading.of === null ? '' : `: ${reading.read} of ${reading.of} entries`}.
      </p>
    );
  const { card } = reading.record;
  return (
    <>
      <p>
        <strong>{card.name}</strong> · {card.railroadName} · {card.entries} entries
        {card.note === '' ? '' : ` · ${card.note}`}
      </p>
      {part === 'sheet' ? (
        <EveningFigures record={reading.record} />
      ) : (
        <EveningReplay record={reading.record} />
      )}
    </>
  );
}

export function LogbookScreen() {
  const [id, part] = screenRest(useHash());
  if (id === undefined)
    return (
      <div className="logbook">
        <EveningList />
      </div>
    );
  return (
    <div className="logbook">
      <nav className="logbook-acts" aria-label="Logbook">
        <a className="logbook-open" href="#/logbook">
          All evenings
        </a>
        <a
          className="logbook-open"
          href={`#/logbook/${encodeURIComponent(id)}`}
          aria-current={part === 'sheet' ? undefined : 'true'}
        >
          Replay
        </a>
        <a
          className="logbook-open"
          href={`#/logbook/${encodeURIComponent(id)}/sheet`}
          aria-current={part === 'sheet' ? 'true' : undefined}
        >
          Sheet and figures
        </a>
      </nav>
      <OneEvening key={id} id={id} part={part} />
    </div>
  );
}
