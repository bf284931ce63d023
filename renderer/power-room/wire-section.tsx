/** The wire calculator: the pieces out and the way back, the neighbouring gauges, the breaker, and what is usual for track power. */
import { CURRENT, GAUGE, VOLTAGE, WARMTH } from '../../shared-model/power/ranges.ts';
import type { Supply } from '../../shared-model/railroad/document.ts';
import { useConsole } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { CautionList } from './caution-list.tsx';
import { FigureBox } from './figure-box.tsx';
import { RUN_UNITS } from './run-unit.ts';
import { useDraft } from './use-draft.ts';
import { FIRST_WIRE, halfABus, IMPEDANCE, OTHERS, wireFigures } from './wire-draft.ts';
import { WirePieces } from './wire-pieces.tsx';
import { WireResults } from './wire-results.tsx';
import './wire.css';

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
      <WirePieces pieces={draft.pieces} unit={unit} onChange={(pieces) => change({ pieces })} />
      <fieldset className="power-stack wire-pieces">
        <legend>Way back</legend>
        <div className="power-fields">
          <FigureBox
            label="Common bus"
            unit="AWG"
            text={draft.busAwg}
            range={GAUGE}
            onChange={(busAwg) => change({ busAwg })}
            hint="Both empty: back as out"
          />
          <FigureBox
            label="Run of the bus, one way"
            unit={unit.unit}
            text={draft.busRun}
            range={unit.range}
            onChange={(busRun) => change({ busRun })}
            hint={halfABus(draft) ? 'A bus needs a gauge and a run' : undefined}
          />
          <FigureBox
            label="Others on the return"
            unit="A"
            text={draft.others}
            range={OTHERS}
            onChange={(others) => change({ others })}
            hint="Empty: none"
          />
        </div>
      </fieldset>
      <div className="power-fields">
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
