/** The questions of the quick start. */
import {
  MOST_LOOPS,
  MOST_SUPPLIES,
  MOST_THROTTLES,
  MOST_YARD_TRACKS,
  type QuickAnswers,
  SCALES,
} from '../../../shared-model/railroad/quick-start/answers.ts';
import { Choice, OnOff, PickBox } from '../../parts/field.tsx';
import { DraftText } from '../draft-field.tsx';

interface QuickQuestionsProps {
  readonly answers: QuickAnswers;
  readonly onChange: (part: Partial<QuickAnswers>) => void;
}

const counts = (least: number, most: number, none?: string) =>
  Array.from({ length: most - least + 1 }, (_, index) => {
    const value = String(least + index);
    return { value, says: value === '0' ? (none ?? value) : value };
  });

const SYSTEMS = [
  { value: 'three-rail-ac', says: 'Three-rail AC' },
  { value: 'two-rail-dc', says: 'Two-rail DC' },
] as const;
const SELECTORS = [
  { value: 'all', says: 'For every block' },
  { value: 'some', says: 'For some' },
  { value: 'none', says: 'None yet' },
] as const;

export function QuickQuestions({ answers, onChange }: QuickQuestionsProps) {
  const { loops, throttles } = answers;
  return (
    <div className="quick-questions">
      <DraftText label="What is it called?" value={answers.name} onChange={(name) => onChange({ name })} />
      <PickBox
        label="In which scale?"
        value={String(answers.scaleRatio)}
        options={SCALES.map(({ ratio, name }) => ({ value: String(ratio), says: `${name}, 1:${ratio}` }))}
        onChange={(ratio) => onChange({ scaleRatio: Number(ratio) })}
      />
      <Choice
        label="Which system?"
        value={answers.system}
        options={SYSTEMS}
        onChange={(system) => onChange({ system })}
      />
      <Choice
        label="How many loops?"
        value={String(loops)}
        options={counts(1, MOST_LOOPS)}
        onChange={(text) => {
          const next = Number(text);
          onChange({ loops: next, joined: next > 1 && (loops === 1 || answers.joined) });
        }}
      />
      {loops > 1 ? (
        <OnOff
          label="Joined by crossovers"
          hint="A pair between neighbouring loops: over, and back again."
          on={answers.joined}
          onChange={(joined) => onChange({ joined })}
        />
      ) : null}
      <OnOff label="A passing siding" on={answers.siding} onChange={(siding) => onChange({ siding })} />
      <OnOff
        label="A reverse connection"
        hint="Track across the loop on which a train turns round."
        on={answers.reverseConnection}
        onChange={(reverseConnection) => onChange({ reverseConnection })}
      />
      <Choice
        label="How many tracks has the yard?"
        value={String(answers.yardTracks)}
        options={counts(0, MOST_YARD_TRACKS, 'No yard')}
        onChange={(text) => onChange({ yardTracks: Number(text) })}
      />
      <Choice
        label="How many throttles?"
        value={String(throttles)}
        options={counts(1, MOST_THROTTLES)}
        onChange={(text) =>
          onChange({ throttles: Number(text), supplies: Math.min(answers.supplies, Number(text)) })
        }
      />
      <Choice
        label="On how many supplies?"
        hint="Each with its own plug."
        value={String(answers.supplies)}
        options={counts(1, Math.min(MOST_SUPPLIES, throttles))}
        onChange={(text) => onChange({ supplies: Number(text) })}
      />
      <Choice
        label="Which selectors are there?"
        hint="What has none yet is wired straight to one throttle. Some: the first two blocks of each loop."
        value={answers.selectors}
        options={SELECTORS}
        onChange={(selectors) => onChange({ selectors })}
      />
    </div>
  );
}
