/** The cautions of a step, to be read where they apply. */
import { type CautionStep, cautionsAt } from '../../shared-model/power/cautions.ts';

interface CautionListProps {
  readonly step: CautionStep;
  readonly masterSwitch?: string | undefined;
}

export function CautionList({ step, masterSwitch }: CautionListProps) {
  return (
    <ul className="cautions" aria-label="Cautions">
      {cautionsAt(step, masterSwitch).map((caution) => (
        <li key={caution.id}>{caution.says}</li>
      ))}
    </ul>
  );
}
