/** The wire calculator: one gauge out and back, its neighbours, the breaker, and what is usual for track power. */
import { CURRENT, GAUGE, VOLTAGE, WARMTH } from '../../shared-model/power/ranges.ts';
import type { Supply } from '../../shared-model/railroad/document.ts';
import { useConsole } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { CautionList } from './caution-list.tsx';
import { FigureBox } from './figure-box.tsx';
import { RUN_UNITS } from './run-unit.ts';
import { useDraft } from './use-draft.ts';
import { FIRST_WIRE, IMPEDANCE, OTHERS, wireFigures } from './wire-draft.ts';
import { WireResults } from './wire-results.tsx';

const CUSTOMS = [
  'Track power goes on nothing lighter than AWG 16; AWG 14 is preferred, AWG 12 is seen too (common practice, no source).',
  'AWG 22 to 24 is for momentary loads such as a switch machine (common practice, no source).',
  'The last piece down to the rail may be lighter, up to 300 mm (common practice, no source).',
  'Blocks that a train crosses between throttles should have roughly the same volts (common practice, no source).',
];

interface WireSectionProps {
  readonly supplies: readonly Supply[];
  readonly masterSwitch: string | undefined;
}

export function WireSection({ supplies, masterSwitch }: WireSectionProps) {
  const lengths = useConsole((state) => state.settings.lengths);
  const unit = RUN_UNITS[lengths];
  const [draft, change] = useDraft('wire', FIRST_WIRE);
  const figures = wireFigures(draft, unit);
  const takeOver = ({ maxVolts, breakerAmps, impedanceOhms }: Supply) =>
    change({ volts: String(maxVolts), breaker: String(breakerAmps), impedance: String(impedanceOhms) });
  return (
    <div className="power-stack">
      <div className="power-fields">
        <FigureBox
          label="Gauge"
          unit="AWG"
          text={draft.awg}
          range={GAUGE}
          onChange={(awg) => change({ awg })}
          hint="0 for 1/0, -3 for 4/0"
        />
        <FigureBox
          label="Run, one way"
          unit={unit.unit}
          text={draft.run}
          range={unit.range}
          onChange={(run) => change({ run })}
        />
        <FigureBox
          label="Current"
          unit="A"
          text={draft.amps}
          range={CURRENT}
          onChange={(amps) => change({ amps })}
        />
        <FigureBox
          label="Volts of the supply"
          unit="V"
          text={draft.volts}
          range={VOLTAGE}
          onChange={(volts) => change({ volts })}
        />
        <FigureBox
          label="Breaker"
          unit="A"
          text={draft.breaker}
          range={CURRENT}
          onChange={(breaker) => change({ breaker })}
          hint="Empty: not judged"
        />
        <FigureBox
          label="Supply's impedance"
          unit="ohm"
          text={draft.impedance}
          range={IMPEDANCE}
          onChange={(impedance) => change({ impedance })}
          hint="Empty: not counted"
        />
        <FigureBox
          label="Others on the return"
          unit="A"
          text={draft.others}
          range={OTHERS}
          onChange={(others) => change({ others })}
          hint="Empty: none"
        />
        <FigureBox
          label="Wire is at"
          unit="°C"
          text={draft.celsius}
          range={WARMTH}
          onChange={(celsius) => change({ celsius })}
        />
      </div>
      {supplies.length === 0 ? null : (
        <div className="power-acts">
          {supplies.map((supply) => (
            <Act key={supply.id} kind="calm" onPress={() => takeOver(supply)}>
              Figures of {supply.name}
            </Act>
          ))}
        </div>
      )}
      {figures === null ? (
        <p role="status">
          Fill in gauge, run, current, volts and temperature; what is wrong is said beside each.
        </p>
      ) : (
        <WireResults figures={figures} unit={unit} />
      )}
      <ul className="notes">
        {CUSTOMS.map((custom) => (
          <li key={custom}>{custom}</li>
        ))}
      </ul>
      <CautionList step="wiring" masterSwitch={masterSwitch} />
    </div>
  );
}
