/** What the wire calculator answers. */
import { ampsText, voltsText } from '../../shared-model/power/figures.ts';
import { breakerCap, DROP_LIMIT_PERCENT, gaugeText, type WirePiece } from '../../shared-model/power/wire.ts';
import { Table } from '../parts/table.tsx';
import { DropChart } from './drop-chart.tsx';
import { type RunUnit, runText } from './run-unit.ts';
import type { WireFigures } from './wire-draft.ts';
import { dropWith, longestRun, mainPiece, neighbours, wireResult } from './wire-result.ts';

interface WireResultsProps {
  readonly figures: WireFigures;
  readonly unit: RunUnit;
}

const RANK = { error: 'ERROR', warning: 'WARNING', info: '' } as const;

/** The wire in words: its pieces out, and how the current comes back. */
function wireWords({ pieces, bus, others }: WireFigures, unit: RunUnit): string {
  const words = ({ awg, run }: WirePiece) => `${runText(run, unit)} of ${gaugeText(awg)}`;
  const back = bus === null ? 'and as much back' : `and back by a bus of ${words(bus)}`;
  const shared = others === 0 ? '' : `, which ${ampsText(others)} of others share`;
  return `${pieces.map(words).join(', then ')} out ${back}${shared}`;
}

export function WireResults({ figures, unit }: WireResultsProps) {
  const { pieces, amps, volts, celsius, impedanceOhms } = figures;
  const { awg, run } = mainPiece(figures);
  const result = wireResult(figures);
  return (
    <>
      <div className="power-stack" role="status">
        <p>
          {wireWords(figures, unit)}, at {celsius} °C: {Number(result.ohms.toPrecision(3))} ohm. At{' '}
          {ampsText(amps)} it drops <strong>{voltsText(result.drop)}</strong>, {result.dropPercent.toFixed(1)}{' '}
          % of {voltsText(volts)}.
        </p>
        <p>
          A dead short at the far end draws {ampsText(result.short)}
          {impedanceOhms === 0 ? ' at most, the supply’s own impedance not counted' : ''}
          {result.trip === null ? '.' : `. ${result.trip.says}`}
        </p>
        {result.judgements.map(({ severity, says, remedy }) => (
          <p key={says}>
            <strong>{RANK[severity]}</strong> {says} {remedy}
          </p>
        ))}
      </div>
      <div className="wire-answers">
        <DropChart figures={figures} unit={unit} />
        <Table
          caption={`At ${runText(run, unit)} and ${ampsText(amps)}`}
          columns={[
            { name: 'Gauge' },
            { name: 'Drop', figures: true },
            { name: 'of the volts', figures: true },
            { name: `Longest for ${DROP_LIMIT_PERCENT} %`, figures: true },
            { name: 'Largest breaker', figures: true },
          ]}
          rows={neighbours(awg).map((gauge) => {
            const drop = dropWith(figures, { awg: gauge, run });
            const cap = breakerCap(gauge);
            return {
              key: String(gauge),
              cells: [
                gauge === awg ? <strong key="gauge">{gaugeText(gauge)}</strong> : gaugeText(gauge),
                voltsText(drop),
                `${((drop / volts) * 100).toFixed(1)} %`,
                runText(longestRun(figures, gauge, DROP_LIMIT_PERCENT), unit),
                cap === null ? 'not capped here' : ampsText(cap),
              ],
            };
          })}
        />
      </div>
      {pieces.length === 1 ? null : (
        <p>Chart and table change the longest piece, {gaugeText(awg)}; the others stay as they are.</p>
      )}
      <p className="fine quiet">
        Diameter by ASTM B258, copper of 1/58 Ω·mm²/m at 20 °C with 0.00393 per kelvin (IEC 60028).{' '}
        {DROP_LIMIT_PERCENT} % is what NEC 215.2(A) Note 2 recommends for feeder and branch together. Largest
        breaker: NEC 240.4(D); lighter than AWG 18: 3 A (common practice, no source). Twice the rating to open
        surely, 1.35 times or it may never: the usual thermal curve (common practice, no source). Rail and
        joints are not counted.
      </p>
    </>
  );
}
