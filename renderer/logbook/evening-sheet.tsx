/** The train sheet: to read, to write in beside it what no session records, to print. */
import { useEffect, useState } from 'react';
import type { ReportTable as Content } from '../../shared-model/logbook/report-types.ts';
import {
  BESIDE_KIND,
  BESIDE_WORDS,
  type WrittenBeside,
  writtenBeside,
} from '../../shared-model/logbook/written-beside.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { TextBox } from '../parts/field.tsx';
import { momentText } from './moment-text.ts';
import { ReportTable } from './report-table.tsx';
import type { OpenedEvening } from './use-evening.ts';

interface SheetProps {
  readonly evening: OpenedEvening;
  readonly seconds: number;
  readonly tables: readonly Content[];
}

function useBeside(uid: string) {
  const { connection } = useConsoleStore();
  const [written, setWritten] = useState<WrittenBeside | null>(null);
  const [says, setSays] = useState('');
  useEffect(() => {
    let wanted = true;
    void connection.call('keep.list', { kind: BESIDE_KIND }).then((answer) => {
      if (!wanted) return;
      const kept = answer.ok ? answer.value.find(({ id }) => id === uid)?.value : undefined;
      setWritten(writtenBeside(kept));
    });
    return () => {
      wanted = false;
    };
  }, [connection, uid]);
  const keep = async () => {
    const answer = await connection.call('keep.write', { kind: BESIDE_KIND, id: uid, value: written });
    setSays(answer.ok ? 'Kept.' : answer.problem.says);
  };
  return { written, setWritten, keep, says };
}

/** As long as they are kept. */
const LONGEST = 200;

function Beside({ uid }: { readonly uid: string }) {
  const { written, setWritten, keep, says } = useBeside(uid);
  if (written === null) return null;
  const problem = (text: string) =>
    text.length > LONGEST ? `At most ${LONGEST} characters; this is ${text.length}.` : undefined;
  const problems = Object.values(written).map(problem);
  return (
    <>
      <dl className="sheet-beside">
        {BESIDE_WORDS.map(([key, words]) => (
          <div key={key}>
            <dt>{words}</dt>
            <dd>{written[key] === '' ? <span className="sheet-blank" /> : written[key]}</dd>
          </div>
        ))}
      </dl>
      <details className="sheet-write">
        <summary>Write in place, timetable, dispatchers, weather</summary>
        <p className="quiet">
          The session does not record these. They are kept beside the record, not in it.
        </p>
        {BESIDE_WORDS.map(([key, words]) => (
          <TextBox
            key={key}
            label={words}
            value={written[key]}
            onChange={(text) => setWritten({ ...written, [key]: text })}
            problem={problem(written[key])}
          />
        ))}
        <Act kind="calm" onPress={() => void keep()} notNow={problems.find((one) => one !== undefined)}>
          Keep these
        </Act>
        <span role="status"> {says}</span>
      </details>
    </>
  );
}

export function EveningSheet({ evening: { card, railroad }, seconds, tables }: SheetProps) {
  const opened = new Date(card.openedAt);
  return (
    <section className="sheet" aria-label="Train sheet">
      <header>
        <h2>Train sheet</h2>
        <dl className="sheet-head">
          <div>
            <dt>Railroad</dt>
            <dd>
              {railroad.document.name}, version {card.railroadHash.slice(0, 12)}
            </dd>
          </div>
          <div>
            <dt>Date</dt>
            <dd>{opened.toLocaleDateString('sv-SE')}</dd>
          </div>
          <div>
            <dt>Evening</dt>
            <dd>
              {card.name}, {momentText(card.openedAt, 0)} to{' '}
              {card.endedAt === null ? 'not ended' : momentText(card.openedAt, seconds)}
            </dd>
          </div>
        </dl>
        <Beside uid={card.uid} />
      </header>
      {tables.map((table) => (
        <ReportTable key={table.title} table={table} />
      ))}
      <p className="fine">
        {card.entries.toLocaleString('en')} entries. Head of the chain: {card.headHash}
      </p>
      <p className="sheet-signed">
        Signed: <span className="sheet-blank" /> on: <span className="sheet-blank" />
      </p>
    </section>
  );
}
