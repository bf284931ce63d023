/** The findings on the drawing, with the numbers that they have in the list. */
import { memo } from 'react';
import { MARK_HALF_PX as HALF, type MarkSpot } from './mark-spots.ts';

function DrawnFindings({ marks }: { readonly marks: readonly MarkSpot[] }) {
  return marks.map(({ finding: { code, about, severity }, number, at: [x, y] }) => (
    <g key={`${code} ${about.join(' ')}`} className="drawing-finding" data-severity={severity}>
      <path d={`M${x} ${y - HALF}L${x + HALF} ${y}L${x} ${y + HALF}L${x - HALF} ${y}Z`} />
      <text x={x} y={y + 1}>
        {number}
      </text>
    </g>
  ));
}

export const FindingMarks = memo(DrawnFindings);
