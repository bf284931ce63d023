/** How the entries lie in time along the scrubber's way, and where refusals and alarms are. */
import type { Outline, OutlineBin } from '../../shared-model/wire/evening-calls.ts';

const HEIGHT = 28;
const MARK_HEIGHT = 8;

interface StripProps {
  readonly outline: Outline;
  readonly entries: number;
  readonly position: number;
  readonly marked: number;
}

/** The scrubber goes by entries, so each bin holds as many of them; its height is how fast they came: one a second fills it, one a minute leaves a line. */
function barHeight(bin: OutlineBin, before: OutlineBin | undefined): number {
  const seconds = (bin.at - (before?.at ?? 0)) / Math.max(1, bin.to - (before?.to ?? 0));
  return Math.max(1, (HEIGHT - MARK_HEIGHT) / Math.sqrt(Math.max(1, seconds)));
}

export function DensityStrip({ outline: { bins }, entries, position, marked }: StripProps) {
  const now = entries === 0 ? 0 : (position / entries) * bins.length;
  return (
    <svg
      className="density-strip"
      viewBox={`0 0 ${Math.max(1, bins.length)} ${HEIGHT}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={`${entries} entries, ${marked} of them refusals or alarms`}
    >
      {bins.map((bin, index) => {
        const height = barHeight(bin, bins[index - 1]);
        return (
          <g key={bin.to}>
            <rect className="density-bar" x={index + 0.1} width={0.8} y={HEIGHT - height} height={height} />
            {bin.refusals === 0 ? null : (
              <rect className="density-refusal" x={index + 0.1} width={0.8} y={MARK_HEIGHT - 3} height={2} />
            )}
            {bin.alarms === 0 ? null : (
              <rect className="density-alarm" x={index} width={1} y={0} height={MARK_HEIGHT - 4} />
            )}
          </g>
        );
      })}
      <line className="density-now" x1={now} x2={now} y1={0} y2={HEIGHT} />
    </svg>
  );
}
