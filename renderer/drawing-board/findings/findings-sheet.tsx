/** What the audit finds in the draft, while it is drawn: each with its place, what to do, and a button where one thing is the sensible one. */
import { memo } from 'react';
import { remedyFor } from '../../../shared-model/power/editing/remedy-for.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { Finding, FindingCode } from '../../../shared-model/refusal.ts';
import { PHASE_CHECK } from '../../desk/option.ts';
import { Act } from '../../parts/act.tsx';
import { draftRailroad } from '../draft-audit.ts';
import { mend } from '../mend.ts';
import { useDraftAudit, useDrawingStore } from '../use-drawing.tsx';
import { trackAbout } from './finding-places.ts';
import './findings.css';

const MOST_NAMED = 6;

/** What no edit mends but a meter. */
const PHASE_CODES: ReadonlySet<FindingCode> = new Set(['phase-unknown', 'unphased-gap']);

interface OneFindingProps {
  readonly finding: Finding;
  readonly number: number;
  /** The railroad that was judged. */
  readonly railroad: Railroad;
}

const OneFinding = memo(function DrawnFinding({ finding, number, railroad }: OneFindingProps) {
  const store = useDrawingStore();
  const { code, severity, about, says, remedy } = finding;
  const track = trackAbout(railroad, finding);
  const edit = remedyFor(finding, railroad.document);
  const named = about.length > MOST_NAMED ? [...about.slice(0, MOST_NAMED), '…'] : about;
  return (
    <li data-severity={severity} aria-label={`${number}, ${severity}: ${code}`}>
      <strong>
        <span className="figures">{number}</span> {severity}: {code}
      </strong>{' '}
      <span className="quiet">{named.join(', ')}</span>
      <p>{says}</p>
      <p className="quiet">{remedy}</p>
      <p className="drawing-board-acts">
        {track.length === 0 ? null : (
          <Act
            kind="calm"
            label={`Show finding ${number} on the drawing`}
            onPress={() => store.select(track)}
          >
            Show it
          </Act>
        )}
        {PHASE_CODES.has(code) ? (
          <a className="act" data-kind="calm" href={PHASE_CHECK}>
            Measure the two supplies
          </a>
        ) : null}
        {edit === null ? null : (
          <Act kind="calm" onPress={() => mend(store, finding)}>
            Mend: {edit.says}
          </Act>
        )}
      </p>
    </li>
  );
});

export function FindingsSheet() {
  const audit = useDraftAudit();
  if (audit === null) return <p role="status">The audit looks at it…</p>;
  const { findings, malformed, draft } = audit;
  if (malformed !== null)
    return (
      <p role="alert">
        This is no railroad yet. {malformed.path}: {malformed.says}.
      </p>
    );
  if (findings.length === 0) return <p>The audit finds nothing.</p>;
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  return (
    <>
      <p>
        {findings.length} findings, {errors} of them errors. An error: it cannot be run like that. A warning:
        it can, with care. The numbers are those on the drawing.
      </p>
      <ol className="drawing-board-findings">
        {findings.map((finding, index) => (
          <OneFinding
            key={`${finding.code} ${finding.about.join(' ')}`}
            finding={finding}
            number={index + 1}
            railroad={draftRailroad(draft)}
          />
        ))}
      </ol>
    </>
  );
}
