/** The keys as they are now, with the user's own changes. */
import { useConsole } from '../console/use-console.tsx';
import { ACT_KEYS, type ActKeys, keyOf, type Slot } from '../keys/acts.ts';
import { strokeWords } from '../keys/strokes.ts';
import { Table } from '../parts/table.tsx';

const COLUMNS = [{ name: 'Act' }, { name: 'Keypad' }, { name: 'Else' }, { name: 'When' }];

export function KeyTopic() {
  const overrides = useConsole((state) => state.settings.keys);
  const words = (row: ActKeys, slot: Slot): string => {
    const stroke = keyOf(row, slot, overrides);
    return stroke === null ? '–' : strokeWords(stroke);
  };
  const rows = ACT_KEYS.map((row) => ({
    key: row.act,
    cells: [row.says, words(row, 'keypad'), words(row, 'other'), row.when ?? ''],
  }));
  return (
    <section className="help-text">
      <p>
        Letters and figures outside the keypad always go to the entry line. A key that is held repeats
        nothing. <a href="#/settings">Settings</a> changes every key.
      </p>
      <Table caption="Keys of the Desk, as they are now" captionHidden columns={COLUMNS} rows={rows} />
    </section>
  );
}
