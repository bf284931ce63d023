/** The Logbook: `#/logbook` lists the evenings, `#/logbook/ID` looks back on one. */
import { EmptyState } from '../parts/empty-state.tsx';
import { screenRest } from '../shell/address.ts';
import { useHash } from '../shell/use-hash.ts';
import { EveningList } from './evening-list.tsx';
import { EveningReplay } from './evening-replay.tsx';
import { useRecord } from './use-record.ts';
import './logbook.css';

function OneEvening({ id }: { readonly id: string }) {
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
      <EveningReplay record={reading.record} />
    </>
  );
}

export function LogbookScreen() {
  const id = screenRest(useHash())[0];
  if (id === undefined)
    return (
      <div className="logbook">
        <EveningList />
      </div>
    );
  return (
    <div className="logbook">
      <nav aria-label="Logbook">
        <a className="logbook-open" href="#/logbook">
          All evenings
        </a>
      </nav>
      <OneEvening key={id} id={id} />
    </div>
  );
}
