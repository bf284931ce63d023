/** The findings on the drawing, with the numbers that they have in the list. */
import { memo } from 'react';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { useDraftAudit } from '../use-drawing.tsx';
import { placeOf } from './finding-places.ts';

/** Pixels between the marks of findings at one spot. */
const ASIDE_PX = 30;
/** How far above its place a mark is, and half its height. */
const [ABOVE_PX, HALF_PX] = [22, 14];

interface FindingMarksProps {
  readonly railroad: Railroad;
  /** Pixels to a square. */
  readonly scale: number;
  /** Warnings too; else errors alone. */
  readonly all: boolean;
}

function DrawnFindings({ railroad, scale, all }: FindingMarksProps) {
  const findings = useDraftAudit()?.findings ?? [];
  const taken = new Map<string, number>();
  return findings.map((finding, index) => {
    if (finding.severity === 'info' || (finding.severity === 'warning' && !all)) return null;
    const at = placeOf(railroad, finding);
    if (at === null) return null;
    const spot = at.join(' ');
    const before = taken.get(spot) ?? 0;
    taken.set(spot, before + 1);
    const [x, y] = [at[0] * scale + before * ASIDE_PX, at[1] * scale - ABOVE_PX];
    return (
      <g
        key={`${finding.code} ${finding.about.join(' ')}`}
        className="drawing-finding"
        data-severity={finding.severity}
      >
        <path d={`M${x} ${y - HALF_PX}L${x + HALF_PX} ${y}L${x} ${y + HALF_PX}L${x - HALF_PX} ${y}Z`} />
        <text x={x} y={y + 1}>
          {index + 1}
        </text>
      </g>
    );
  });
}

export const FindingMarks = memo(DrawnFindings);
