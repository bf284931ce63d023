/** The guided phase check: which two, the cautions, what to set, where to touch, and the verdict with its remedy. */
import { useState } from 'react';
import { cautionsAt } from '../../shared-model/power/cautions.ts';
import { READING, TOLERANCE } from '../../shared-model/power/ranges.ts';
import type { Supply } from '../../shared-model/railroad/document.ts';
import { useConsole } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { Choice } from '../parts/field.tsx';
import { CautionList } from './caution-list.tsx';
import { FigureBox } from './figure-box.tsx';
import {
  draftFor,
  type GuidedDraft,
  MEAN_METER_PERCENT,
  readingsOf,
  SET_UP,
  SET_UP_ITEMS,
  type SetUp,
  verdictOf,
} from './guided-draft.ts';
import { GuidedStep } from './guided-step.tsx';
import { GuidedVerdict } from './guided-verdict.tsx';
import { CAUTION_KIND } from './kept-cautions.ts';
import { ProbeDrawing, type Reading } from './probe-drawing.tsx';
import { Tick } from './tick.tsx';
import { useKept } from './use-kept.ts';
import type { Power } from './use-power.ts';

interface GuidedCheckProps {
  readonly power: Power;
  readonly draft: GuidedDraft;
  readonly change: (part: Partial<GuidedDraft>) => void;
  /** A check is on record now; told in words. */
  readonly onKept: (says: string) => void;
}

/** What the evening's record says against a tick, as a remark; the person at the railroad has the last word. */
function remarks({ state }: Power): Readonly<Partial<Record<SetUp, string>>> {
  if (state === null) return {};
  const on = Object.entries(state.selectors).filter(([, { position }]) => position !== 'off');
  const across = Object.values(state.trains).filter(({ blocks }) => blocks.length > 1);
  return {
    ...(on.length === 0
      ? {}
      : { selectorsOff: ` On record not at off: ${on.map(([id]) => id).join(', ')}.` }),
    ...(across.length === 0
      ? {}
      : { noTrain: ` On record in two blocks: ${across.map(({ name }) => name).join(', ')}.` }),
  };
}

const READINGS: readonly { readonly reading: Reading; readonly label: (a: string, b: string) => string }[] = [
  { reading: 'voltsA', label: (a) => `Volts of ${a}` },
  { reading: 'voltsB', label: (_, b) => `Volts of ${b}` },
  { reading: 'voltsAcross', label: (a, b) => `Volts across, from ${a} hot to ${b} hot` },
];

function Pair({
  supplies,
  draft,
  change,
}: Pick<GuidedCheckProps, 'draft' | 'change'> & { readonly supplies: readonly Supply[] }) {
  const options = supplies.map(({ id, name }) => ({ value: id, says: name }));
  return (
    <>
      <Choice
        label="Supply A"
        value={draft.a}
        options={options}
        onChange={(a) => change(draftFor(a, a === draft.b ? '' : draft.b))}
      />
      <Choice
        label="Supply B"
        value={draft.b}
        options={options.filter(({ value }) => value !== draft.a)}
        onChange={(b) => change(draftFor(draft.a, b))}
      />
    </>
  );
}

export function GuidedCheck({ power, draft, change, onKept }: GuidedCheckProps) {
  const { matchedVolts } = useConsole((state) => state.settings);
  const { keep } = useKept(CAUTION_KIND);
  const [trouble, setTrouble] = useState<string | null>(null);
  const supplies = power.railroad?.document.supplies ?? [];
  const masterSwitch = power.railroad?.document.masterSwitch;
  const [a, b] = [draft.a, draft.b].map((id) => supplies.find((supply) => supply.id === id));
  const paired = a !== undefined && b !== undefined;
  const left = SET_UP_ITEMS.filter((item) => !draft[item]);
  const readings = readingsOf(draft);
  const said = remarks(power);
  const acknowledge = async () => {
    const shown = cautionsAt('phase-check', masterSwitch).map((caution) => caution.says);
    const answer = await keep({ step: 'phase-check', shown });
    setTrouble(answer.ok ? null : answer.problem.says);
    if (answer.ok) change({ cautionsRead: true });
  };
  const ready = paired && draft.cautionsRead && left.length === 0;
  return (
    <ol className="guided">
      <GuidedStep number={1} title="Which two" done={paired}>
        <Pair supplies={supplies} draft={draft} change={change} />
      </GuidedStep>
      <GuidedStep number={2} title="Read this first" done={draft.cautionsRead}>
        <CautionList step="phase-check" masterSwitch={masterSwitch} />
        {draft.cautionsRead ? null : (
          <Act kind="calm" onPress={() => void acknowledge()}>
            I have read this
          </Act>
        )}
        {trouble === null ? null : <p role="alert">Not kept: {trouble}</p>}
      </GuidedStep>
      <GuidedStep
        number={3}
        title="Set it up"
        done={left.length === 0}
        waitsFor={
          paired && draft.cautionsRead ? undefined : 'Choose two supplies and read the cautions first.'
        }
      >
        {SET_UP_ITEMS.map((item) => (
          <Tick
            key={item}
            says={SET_UP[item]}
            ticked={draft[item]}
            onChange={(ticked) => change({ [item]: ticked })}
            remark={said[item]}
          />
        ))}
      </GuidedStep>
      <GuidedStep
        number={4}
        title="Measure"
        done={readings !== null}
        waitsFor={ready ? undefined : 'Without all of step 3 the readings would say nothing.'}
      >
        <Choice
          label="The meter"
          value={draft.tolerance === String(MEAN_METER_PERCENT) ? 'mean' : 'rms'}
          options={[
            { value: 'rms', says: 'true RMS' },
            { value: 'mean', says: 'another one' },
          ]}
          onChange={(meter) => change({ tolerance: meter === 'mean' ? String(MEAN_METER_PERCENT) : '2' })}
          hint="A meter that is not true RMS reads a chopped wave wrong."
        />
        <FigureBox
          label="Its tolerance"
          unit="% of each reading"
          text={draft.tolerance}
          range={TOLERANCE}
          onChange={(tolerance) => change({ tolerance })}
          hint="±2 % is taken for a true-RMS meter, ±10 % for another (common practice, no source), ±0.2 V at the least; your meter's leaflet knows better."
        />
        <div className="readings">
          {READINGS.map(({ reading, label }) => (
            <div key={reading}>
              <ProbeDrawing reading={reading} />
              <FigureBox
                label={label(a?.name ?? 'A', b?.name ?? 'B')}
                unit="V"
                text={draft[reading]}
                range={READING}
                onChange={(text) => change({ [reading]: text })}
              />
            </div>
          ))}
        </div>
      </GuidedStep>
      <GuidedStep
        number={5}
        title="What it says"
        done={false}
        waitsFor={ready && readings !== null ? undefined : 'The three readings are still to come.'}
      >
        {a !== undefined && b !== undefined && readings !== null ? (
          <GuidedVerdict
            power={power}
            a={a}
            b={b}
            readings={readings}
            answer={verdictOf(readings, a, b, matchedVolts)}
            onKept={onKept}
          />
        ) : null}
      </GuidedStep>
    </ol>
  );
}
