/** What the audit finds in the draft, while it is drawn: each with its place, what to do, and a button where one thing is the sensible one. */
import { remedyFor } from '../../../shared-model/power/editing/remedy-for.ts';
import type { Finding } from '../../../shared-model/refusal.ts';
import { Act } from '../../parts/act.tsx';
import { useDraftAudit, useDraftRailroad, useDrawingStore } from '../use-drawing.tsx';
import { trackAbout } from './finding-places.ts';
import './findings.css';

const MOST_NAMED = 6;

function OneFinding({ finding, number }: { readonly finding: Finding; readonly number: number }) {
  const store = useDrawingStore();
  const railroad = useDraftRailroad();
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
        {edit === null ? null : (
          <Act kind="calm" onPress={() => store.act(edit)}>
            Mend: {edit.says}
          </Act>
        )}
      </p>
    </li>
  );
}

export function FindingsSheet() {
  const { findings, malformed } = useDraftAudit();
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
          />
        ))}
      </ol>
    </>
  );
}
