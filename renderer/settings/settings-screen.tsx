/** Settings: how the console looks, sounds and answers to keys. Each change is kept at once. */
import { useState } from 'react';
import type { UserSettings } from '../../shared-model/wire/contract.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { Choice, NumberBox, OnOff } from '../parts/field.tsx';
import { KeyTable } from './key-table.tsx';
import { LetterSample } from './letter-sample.tsx';
import './settings.css';

const THEMES = [
  { value: 'dark', says: 'Dark' },
  { value: 'light', says: 'Light' },
  { value: 'contrast', says: 'High contrast' },
] as const;

const LENGTHS = [
  { value: 'imperial', says: 'Feet and inches' },
  { value: 'metric', says: 'Metres' },
] as const;

export function SettingsScreen() {
  const settings = useConsole((state) => state.settings);
  const store = useConsoleStore();
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const write = (part: Partial<UserSettings>) => {
    void store.writeSettings(part).then((answer) => setProblem(answer.ok ? undefined : answer.problem.says));
  };
  return (
    <div className="settings">
      <p role="alert" className="settings-problem">
        {problem === undefined ? '' : `Not kept: ${problem}`}
      </p>
      <section aria-labelledby="settings-look">
        <h2 id="settings-look">Look</h2>
        <Choice
          label="Theme"
          value={settings.theme}
          options={THEMES}
          onChange={(theme) => write({ theme })}
        />
        <Choice
          label="Lengths"
          hint="Railroad files are in millimetres whatever is chosen here."
          value={settings.lengths}
          options={LENGTHS}
          onChange={(lengths) => write({ lengths })}
        />
      </section>
      <section aria-labelledby="settings-letters">
        <h2 id="settings-letters">Letters</h2>
        <p className="fine quiet">
          Letters are made as large as the eye needs: measure the screen, and how far you are from it.
        </p>
        <div className="settings-row">
          <NumberBox
            label="Diagonal of the screen"
            unit="inches"
            least={5}
            most={120}
            step={0.1}
            value={settings.screenInches}
            onChange={(screenInches) => write({ screenInches })}
          />
          <NumberBox
            label="From your chair"
            unit="mm"
            least={200}
            most={3000}
            value={settings.deskMm}
            onChange={(deskMm) => write({ deskMm })}
          />
          <NumberBox
            label="From where you stand at the knobs"
            unit="mm"
            least={500}
            most={10_000}
            value={settings.farMm}
            onChange={(farMm) => write({ farMm })}
          />
        </div>
        <LetterSample settings={settings} />
      </section>
      <section aria-labelledby="settings-voice">
        <h2 id="settings-voice">Sound and speech</h2>
        <OnOff label="Tone at a danger alarm" on={settings.sound} onChange={(sound) => write({ sound })} />
        <OnOff
          label="Speak the words of SAY"
          hint="By this computer's own voice."
          on={settings.speech}
          onChange={(speech) => write({ speech })}
        />
      </section>
      <section aria-labelledby="settings-power">
        <h2 id="settings-power">Phase checks and knobs</h2>
        <div className="settings-row">
          <NumberBox
            label="A phase check is old after"
            unit="minutes"
            least={1}
            most={100_000}
            value={settings.phaseOldAfterMinutes}
            onChange={(phaseOldAfterMinutes) => write({ phaseOldAfterMinutes })}
          />
          <NumberBox
            label="In phase, yet not matched, above"
            unit="V across"
            least={0}
            most={50}
            step={0.1}
            value={settings.matchedVolts}
            onChange={(matchedVolts) => write({ matchedVolts })}
          />
          <NumberBox
            label="One throw takes"
            unit="seconds"
            least={0}
            most={60}
            step={0.5}
            value={settings.throwSeconds}
            onChange={(throwSeconds) => write({ throwSeconds })}
          />
        </div>
      </section>
      <section aria-labelledby="settings-keys">
        <h2 id="settings-keys">Keys</h2>
        <KeyTable keys={settings.keys} onChange={(keys) => write({ keys })} />
      </section>
    </div>
  );
}
