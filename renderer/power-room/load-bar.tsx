/** A load against its limit: solid what flows now, a line where it was worst, outlined what could flow, a mark where the limit is. */
import { ampsText } from '../../shared-model/power/figures.ts';
import { isOver } from '../../shared-model/power/load.ts';
import { Hatch } from '../parts/hatch.tsx';

interface LoadBarProps {
  readonly name: string;
  readonly now: number;
  /** The worst moment of the evening; 0 while there was none. */
  readonly peak: number;
  /** As if every train on it ran, or at worst. */
  readonly most: number;
  readonly limit: number;
}

/** The whole width stands for this many times the limit, so that an overload is seen beyond the mark. */
const WIDTH = 1.25;

const share = (amps: number, limit: number): string => `${Math.min(amps / limit / WIDTH, 1) * 100}%`;

export function LoadBar({ name, now, peak, most, limit }: LoadBarProps) {
  const over = isOver(Math.max(now, peak, most), limit);
  return (
    <span
      className="load-bar"
      role="img"
      aria-label={`${name}: ${ampsText(now)} now, ${ampsText(peak)} at the worst moment, ${ampsText(most)} at most, limit ${ampsText(limit)}`}
    >
      <span className="load-most" style={{ width: share(most, limit) }}>
        {over ? <Hatch /> : null}
      </span>
      {peak === 0 ? null : <span className="load-peak" style={{ left: share(peak, limit) }} />}
      <span className="load-now" style={{ width: share(now, limit) }} />
      <span className="load-limit" style={{ left: `${100 / WIDTH}%` }} />
    </span>
  );
}
