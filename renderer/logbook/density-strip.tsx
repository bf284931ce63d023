/** How many events there are along the scrubber's way by time of the evening, and where refusals and alarms lie. */
import { useMemo } from 'react';
import type { SessionEvent } from '../../shared-model/session/event.ts';

const BINS = 120;
const HEIGHT = 28;
const MARK_HEIGHT = 8;

interface StripProps {
  readonly events: readonly SessionEvent[];
  readonly position: number;
}

interface Bin {
  readonly seconds: number;
  readonly marked: boolean;
}

/** The scrubber goes by entries, so each bin holds as many of them; its height is how fast they came. */
function binsOf(events: readonly SessionEvent[]): readonly Bin[] {
  const count = Math.min(BINS, events.length);
  return Array.from({ length: count }, (_, index) => {
    const from = Math.floor((index * events.length) / count);
    const to = Math.floor(((index + 1) * events.length) / count);
    const inside = events.slice(from, to);
    const before = events[from - 1]?.at ?? 0;
    return {
      seconds: ((inside.at(-1)?.at ?? before) - before) / Math.max(1, inside.length),
      marked: inside.some(({ outcome }) => outcome !== 'done'),
    };
  });
}

/** Height of a bin: an event a second (or more) fills it, one a minute leaves a line. */
const barHeight = ({ seconds }: Bin): number =>
  Math.max(1, (HEIGHT - MARK_HEIGHT) / Math.sqrt(Math.max(1, seconds)));

export function DensityStrip({ events, position }: StripProps) {
  const bins = useMemo(() => binsOf(events), [events]);
  const marked = events.filter(({ outcome }) => outcome !== 'done').length;
  const now = events.length === 0 ? 0 : (position / events.length) * bins.length;
  return (
    <svg
      className="density-strip"
      viewBox={`0 0 ${Math.max(1, bins.length)} ${HEIGHT}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={`${events.length} entries, ${marked} of them refusals or alarms`}
    >
      {bins.map((bin, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a bin is its place
        <g key={index}>
          <rect
            className="density-bar"
            x={index + 0.1}
            width={0.8}
            y={HEIGHT - barHeight(bin)}
            height={barHeight(bin)}
          />
          {bin.marked ? (
            <rect className="density-mark" x={index + 0.1} width={0.8} y={0} height={MARK_HEIGHT - 2} />
          ) : null}
        </g>
      ))}
      <line className="density-now" x1={now} x2={now} y1={0} y2={HEIGHT} />
    </svg>
  );
}
