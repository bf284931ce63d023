/** What the audit finds in the draft, while it is drawn. */
import { useDraftAudit } from '../use-drawing.tsx';
import './findings.css';

export function FindingsSheet() {
  const { findings, malformed } = useDraftAudit();
  if (malformed !== null)
    return (
      <p>
        {malformed.path}: {malformed.says}
      </p>
    );
  if (findings.length === 0) return <p>The audit finds nothing.</p>;
  return (
    <ul className="drawing-board-findings">
      {findings.map(({ code, severity, about, says, remedy }) => (
        <li key={`${code} ${about.join(' ')}`} data-severity={severity}>
          <strong>
            {severity}: {code}
          </strong>
          <p>{says}</p>
          <p className="quiet">{remedy}</p>
        </li>
      ))}
    </ul>
  );
}
