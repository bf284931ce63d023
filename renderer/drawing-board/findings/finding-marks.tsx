/** The findings on the drawing, with the numbers that they have in the list. */
import { memo } from 'react';
import { trackOf } from '../../../shared-model/railroad/editing/track.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { useDraftAudit } from '../use-drawing.tsx';
import { placeOf } from './finding-places.ts';

/** Pixels between the marks of findings at one spot. */
const ASIDE_PX = 30;

interface FindingMarksProps {
  readonly railroad: Railroad;
  /** Warnings too; else errors alone. */
  readonly all: boolean;
}

function DrawnFindings({ railroad, all }: FindingMarksProps) {
  const { findings } = useDraftAudit();
  const track = trackOf(railroad.document);
  const taken = new Map<string, number>();
  return findings.map((finding, index) => {
    if (finding.severity === 'info' || (finding.severity === 'warning' && !all)) return null;
    const at = placeOf(railroad, track, finding);
    if (at === null) return null;
    const spot = at.join(' ');
    const before = taken.get(spot) ?? 0;
    taken.set(spot, before + 1);
    return (
      <g key={`${finding.code} ${finding.about.join(' ')}`} transform={`translate(${at[0]} ${at[1]})`}>
        <g className="drawing-mark drawing-finding" data-severity={finding.severity}>
          <g transform={`translate(${before * ASIDE_PX} -22)`}>
            <path d="M0 -14L14 0L0 14L-14 0Z" />
            <text y="1">{index + 1}</text>
          </g>
        </g>
      </g>
    );
  });
}

export const FindingMarks = memo(DrawnFindings);
