/** What the audit finds about one thing, where that thing is changed; with its remedy, and a button where there is one. */
import { remedyFor } from '../../../shared-model/power/editing/remedy-for.ts';
import type { Finding } from '../../../shared-model/refusal.ts';
import { Act } from '../../parts/act.tsx';
import { mend } from '../mend.ts';
import { useDraft, useDraftAudit, useDrawingStore } from '../use-drawing.tsx';

function OneFinding({ finding }: { readonly finding: Finding }) {
  const store = useDrawingStore();
  const draft = useDraft();
  const { severity, says, remedy } = finding;
  const edit = remedyFor(finding, draft);
  return (
    <li data-severity={severity}>
      <strong>{severity}:</strong> {says} <span className="quiet">{remedy}</span>
      {edit === null ? null : (
        <Act kind="calm" onPress={() => mend(store, finding)}>
          Mend: {edit.says}
        </Act>
      )}
    </li>
  );
}

/** @param concerns whether a finding belongs here */
export function FindingsAbout({ concerns }: { readonly concerns: (finding: Finding) => boolean }) {
  const findings = useDraftAudit()?.findings.filter(concerns) ?? [];
  if (findings.length === 0) return null;
  return (
    <ul className="wiring-findings" aria-label="What the audit finds about it">
      {findings.map((finding) => (
        <OneFinding key={`${finding.code} ${finding.about.join(' ')}`} finding={finding} />
      ))}
    </ul>
  );
}
