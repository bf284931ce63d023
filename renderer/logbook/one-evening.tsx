/** One evening: the first answers on top, then its replay, its charts, its figures or its sheet. */
import { useMemo } from 'react';
import { type HeadlineSentence, headline } from '../../shared-model/logbook/headline.ts';
import { reportNames, reportTables } from '../../shared-model/logbook/report-tables.ts';
import type { EveningCard } from '../../shared-model/wire/contract.ts';
import { useConsole } from '../console/use-console.tsx';
import { EmptyState } from '../parts/empty-state.tsx';
import { EveningActs } from './evening-acts.tsx';
import { EveningCharts } from './evening-charts.tsx';
import { EveningFigures } from './evening-figures.tsx';
import { EveningReplay } from './evening-replay.tsx';
import { EveningSheet } from './evening-sheet.tsx';
import { clockOf } from './moment-text.ts';
import { type OpenedEvening, useEvening } from './use-evening.ts';
import { type Reporting, useReport } from './use-report.ts';

/** What is shown of an evening: the last part of its address. */
export type Part = 'replay' | 'charts' | 'figures' | 'sheet';

/** An evening of so many entries is worked out without being asked for. */
const AT_ONCE = 20_000;

function Working({ reporting, of }: { readonly reporting: Reporting; readonly of: number }) {
  if (reporting.is === 'failed') return <p role="alert">{reporting.says}</p>;
  const done = reporting.is === 'working' ? reporting.entries : 0;
  return (
    <p role="status">
      Working it out: {done.toLocaleString('en')} of {of.toLocaleString('en')} entries. Leave this part to
      give it up.
    </p>
  );
}

/** The first answers, each with a way to the moment at which it can be seen. */
function Headline({
  card,
  lines,
}: {
  readonly card: EveningCard;
  readonly lines: readonly HeadlineSentence[];
}) {
  return (
    <ul className="evening-headline">
      {lines.map(({ says, at }, index) => (
        <li key={says}>
          {says}
          {/* One way to a moment is enough. */}
          {at === null || lines.slice(0, index).some((earlier) => earlier.at === at) ? null : (
            <>
              {' '}
              <a className="logbook-open" href={`#/logbook/${encodeURIComponent(card.id)}/at/${at}`}>
                See it in the replay
              </a>
            </>
          )}
        </li>
      ))}
    </ul>
  );
}

function useMade({ railroad, card }: OpenedEvening, reporting: Reporting) {
  const { lengths, throwSeconds } = useConsole((state) => state.settings);
  return useMemo(() => {
    if (reporting.is !== 'made') return null;
    const { report } = reporting;
    const style = { lengths, throwSeconds, clock: clockOf(card.openedAt) };
    const { sheet, figures } = reportTables(railroad, report.figures, report.sheet, style);
    const lines = headline(report.figures, reportNames(railroad, report.sheet, style), style.clock);
    return { report, sheet, figures, lines, tables: [...sheet, ...figures] };
  }, [railroad, card, reporting, lengths, throwSeconds]);
}

function Opened({
  evening,
  part,
  at,
}: {
  readonly evening: OpenedEvening;
  readonly part: Part;
  readonly at: number | null;
}) {
  const { card } = evening;
  const needsReport = part === 'figures' || part === 'sheet';
  const reporting = useReport(card.id, needsReport || card.entries <= AT_ONCE);
  const made = useMade(evening, reporting);
  return (
    <>
      <div className="evening-head">
        <p>
          <strong>{card.name}</strong> · {card.railroadName} · {card.entries.toLocaleString('en')} entries
          {evening.checked ? '' : ' · being gone through to see that it is what was written'}
          {card.note === '' ? '' : ` · ${card.note}`}
        </p>
        {made === null ? null : <Headline card={card} lines={made.lines} />}
        {part === 'replay' ? null : <EveningActs card={card} made={made} printsHere={part === 'sheet'} />}
      </div>
      {part === 'replay' ? <EveningReplay evening={evening} at={at} /> : null}
      {needsReport && made === null ? <Working reporting={reporting} of={card.entries} /> : null}
      {part === 'charts' ? <EveningCharts evening={evening} /> : null}
      {part === 'figures' && made !== null ? <EveningFigures tables={made.figures} /> : null}
      {part === 'sheet' && made !== null ? (
        <EveningSheet evening={evening} seconds={made.report.figures.seconds} tables={made.sheet} />
      ) : null}
    </>
  );
}

export function OneEvening({
  id,
  part,
  at,
}: {
  readonly id: string;
  readonly part: Part;
  readonly at: number | null;
}) {
  const opening = useEvening(id);
  if (opening.is === 'failed') return <EmptyState title="This evening cannot be read" says={opening.says} />;
  if (opening.is === 'reading') return <p role="status">Reading the evening.</p>;
  const { evening } = opening;
  // One that has grown is another to look at.
  return <Opened key={evening.card.headHash} evening={evening} part={part} at={at} />;
}
