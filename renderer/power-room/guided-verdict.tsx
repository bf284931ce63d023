/** The verdict of a phase check in words and as a drawing, its remedy, what it would drive, and the act that keeps it. */
import { useState } from 'react';
import { voltsText } from '../../shared-model/power/figures.ts';
import { type PhaseAnswer, toleranceText } from '../../shared-model/power/phase.ts';
import type { Supply } from '../../shared-model/railroad/document.ts';
import { Act } from '../parts/act.tsx';
import { Hatch } from '../parts/hatch.tsx';
import { Table } from '../parts/table.tsx';
import { BridgeTable } from './bridge-table.tsx';
import { CautionList } from './caution-list.tsx';
import { type Readings, recordedOtherwise } from './guided-draft.ts';
import { PhasorDrawing } from './phasor-drawing.tsx';
import type { Power } from './use-power.ts';

interface GuidedVerdictProps {
  readonly power: Power;
  readonly a: Supply;
  readonly b: Supply;
  readonly readings: Readings;
  readonly answer: PhaseAnswer;
  /** It is on record now; told in words. */
  readonly onKept: (says: string) => void;
}

function angleWords({ from, to }: PhaseAnswer['degrees']): string {
  return from === null || to === null ? 'none fits' : `${from.toFixed(1)}° to ${to.toFixed(1)}°`;
}

export function GuidedVerdict({ power, a, b, readings, answer, onKept }: GuidedVerdictProps) {
  const [trouble, setTrouble] = useState<string | null>(null);
  const bad = answer.verdict !== 'in-phase';
  const otherwise = recordedOtherwise(readings, answer, power.state !== null);
  const keep = async () => {
    const problem = await power.keepCheck({ a, b, readings });
    setTrouble(problem);
    const where = power.state === null ? 'Kept, for the next evening too' : 'In the evening’s record';
    if (problem === null) onKept(`${where}: ${a.name} with ${b.name}. ${answer.says}`);
  };
  return (
    <div className="power-stack">
      <div className="verdict" role="status">
        {bad ? (
          <span className="verdict-hatch">
            <Hatch />
          </span>
        ) : null}
        <div className="power-stack">
          <p className="verdict-words">{answer.says}</p>
          {answer.remedy === '' ? null : <p>{answer.remedy}</p>}
        </div>
      </div>
      <div className="verdict-figures">
        <PhasorDrawing readings={readings} degrees={answer.degrees} names={[a.name, b.name]} />
        <Table
          caption="The readings"
          columns={[{ name: 'What' }, { name: 'Figure', figures: true }]}
          rows={[
            { key: 'a', cells: [`A, ${a.name}`, voltsText(readings.voltsA)] },
            { key: 'b', cells: [`B, ${b.name}`, voltsText(readings.voltsB)] },
            { key: 'across', cells: ['Across', voltsText(readings.voltsAcross)] },
            { key: 'angle', cells: ['Angles that fit', angleWords(answer.degrees)] },
          ]}
        />
      </div>
      <p className="fine quiet">
        By the law of cosines for sine waves (the three-voltmeter method),{' '}
        {toleranceText(readings.tolerancePercent)}. In phase: every angle that fits is below 20°. Reversed:
        180° fits, and all are above 135°. Different legs: 60° or 120° fits. Which of the two leads cannot be
        told from such readings.
      </p>
      {answer.verdict === 'reversed' || answer.verdict === 'different-legs' ? (
        <CautionList step="remedy" masterSwitch={power.railroad?.document.masterSwitch} />
      ) : null}
      {answer.verdict === 'inconsistent' ? null : (
        <BridgeTable a={a} b={b} voltsAcross={readings.voltsAcross} />
      )}
      {otherwise === null ? (
        <div>
          <Act onPress={() => void keep()}>
            {power.state === null ? 'Keep this check' : 'Put this check into the evening'}
          </Act>
        </div>
      ) : (
        <p role="alert">{otherwise}</p>
      )}
      {trouble === null ? null : <p role="alert">Not kept: {trouble}</p>}
    </div>
  );
}
