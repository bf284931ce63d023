/** What is left before the start: the setting, the walk along the knobs, phase checks, what is out of service. */
import { checksDue } from '../../../shared-model/power/phase-due.ts';
import { useConsole } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { asShown } from '../as-shown.ts';
import type { MakingUpProps } from './making-up-props.ts';

const WHY = {
  never: 'not measured',
  lapsed: 'lapsed: a supply was replugged',
  old: 'old',
  'no-verdict': 'no clear verdict',
  contradiction: 'the checks contradict each other',
} as const;

function PhaseDue({ source, desk }: MakingUpProps) {
  const minutes = useConsole(({ settings }) => settings.phaseOldAfterMinutes);
  const { railroad, state, seconds } = source;
  const aged = state.checks.map((check) => ({ ...check, age: seconds - check.at }));
  const due = checksDue(railroad, aged, minutes * 60);
  const name = (id: (typeof due)[number]['a']): string => railroad.supplies.get(id)?.name ?? id;
  if (due.length === 0) return <p>The supplies that meet are in phase, or known not to be.</p>;
  return (
    <>
      {due.map(({ a, b, why }) => (
        <p key={`${a} ${b}`}>
          {name(a)} and {name(b)}: {WHY[why]}.
        </p>
      ))}
      <Act kind="calm" keyName="F7" onPress={() => desk.act('phase-check')}>
        Measure the phase
      </Act>
    </>
  );
}

export function ReadyList({ source, desk }: MakingUpProps) {
  const { railroad, state } = source;
  const presumed = asShown(state);
  return (
    <section aria-label="Ready to start">
      <h2>Knobs and phases</h2>
      <div className="desk-options">
        {railroad.document.settings.map(({ id, name }, index) => (
          <Act
            key={id}
            kind="calm"
            keyName={state.alone && index === 0 ? 'F10' : undefined}
            onPress={() => desk.sendInputs([{ do: 'apply-setting', setting: id }])}
          >
            Set: {name}
          </Act>
        ))}
        <Act
          kind="calm"
          keyName="PgUp"
          onPress={() => desk.sendInputs(presumed)}
          notNow={presumed.length === 0 ? 'Every knob was thrown or looked at tonight.' : undefined}
        >
          As shown: {presumed.length} presumed
        </Act>
      </div>
      <PhaseDue source={source} desk={desk} />
      {state.tags.map(({ thing, why, by }) => (
        <p key={thing}>
          {thing} is out of service: {why} ({by}).
        </p>
      ))}
      <div className="desk-acts">
        <Act onPress={() => desk.sendInputs([{ do: 'start' }])}>Start the evening</Act>
      </div>
    </section>
  );
}
