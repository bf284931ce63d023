/** The phasors of three readings: A along the axis, B within the wedge of angles that fit, and the volts across between their tips. */

import type { PhaseReadings } from '../../shared-model/power/angle-interval.ts';
import { voltsText } from '../../shared-model/power/figures.ts';
import type { PhaseAnswer } from '../../shared-model/power/phase.ts';

const REACH = 100;
const ARC = 46;

interface PhasorDrawingProps {
  readonly readings: PhaseReadings;
  readonly degrees: PhaseAnswer['degrees'];
  readonly names: readonly [string, string];
}

type Point = readonly [x: number, y: number];

/** The tip of an arrow of a length at an angle, anticlockwise from the axis; y grows downward on the screen. */
const tip = (length: number, degrees: number): Point => [
  length * Math.cos((degrees * Math.PI) / 180),
  -length * Math.sin((degrees * Math.PI) / 180),
];

const at = ([x, y]: Point): string => `${x.toFixed(2)} ${y.toFixed(2)}`;

function wedge(radius: number, from: number, to: number): string {
  return `M0 0L${at(tip(radius, from))}A${radius} ${radius} 0 0 0 ${at(tip(radius, to))}Z`;
}

function Phasor({ to, name, aside }: { readonly to: Point; readonly name: string; readonly aside: Point }) {
  return (
    <g className="phasor">
      <path d={`M0 0L${at(to)}`} markerEnd="url(#phasor-head)" />
      <text x={to[0] + aside[0]} y={to[1] + aside[1]}>
        {name}
      </text>
    </g>
  );
}

/** Nothing is drawn where no angle fits: there is no such triangle. */
export function PhasorDrawing({ readings, degrees, names }: PhasorDrawingProps) {
  const { voltsA, voltsB, voltsAcross } = readings;
  const { from, to } = degrees;
  const longest = Math.max(voltsA, voltsB);
  if (from === null || to === null || longest === 0) return null;
  const middle = (from + to) / 2;
  const tipA = tip((voltsA / longest) * REACH, 0);
  const tipB = tip((voltsB / longest) * REACH, middle);
  const says = `${names[0]} ${voltsText(voltsA)}, ${names[1]} ${voltsText(voltsB)}, at an angle between ${from.toFixed(0)} and ${to.toFixed(0)} degrees, ${voltsText(voltsAcross)} across`;
  const flat = middle < 30;
  return (
    <svg className="phasors" viewBox="-150 -130 320 160" role="img" aria-label={says}>
      <defs>
        <marker
          id="phasor-head"
          viewBox="0 0 10 10"
          refX="9"
          refY="5"
          markerWidth="7"
          markerHeight="7"
          orient="auto-start-reverse"
        >
          <path d="M0 0L10 5L0 10Z" />
        </marker>
      </defs>
      <path className="phasor-axis" d={`M${-REACH} 0H${REACH}`} />
      <path className="phasor-wedge" d={wedge(REACH, from, to)} />
      <path className="phasor-across" d={`M${at(tipA)}L${at(tipB)}`} />
      <Phasor to={tipA} name="A" aside={[8, flat ? 16 : 5]} />
      <Phasor to={tipB} name="B" aside={flat ? [8, -6] : [middle > 120 ? -18 : 4, -6]} />
      <text className="phasor-angle" x={0} y={24} textAnchor="middle">
        {`${from.toFixed(0)}° to ${to.toFixed(0)}°, A leads or lags`}
      </text>
      <path className="phasor-arc" d={`M${ARC} 0A${ARC} ${ARC} 0 0 0 ${at(tip(ARC, middle))}`} />
    </svg>
  );
}
