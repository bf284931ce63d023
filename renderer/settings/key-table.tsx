/** The keys of every act. Press one and then the key that it is to be; Escape leaves it, the key that it has already takes it away. */
import { type KeyboardEvent, useState } from 'react';
import type { UserSettings } from '../../shared-model/wire/contract.ts';
import {
  ACT_KEYS,
  type ActKeys,
  actsByStroke,
  keyOf,
  SLOTS,
  type Slot,
  slotKey,
  withKey,
} from '../keys/acts.ts';
import { isPrintable, strokeOf, strokeWords } from '../keys/strokes.ts';
import { Act } from '../parts/act.tsx';
import { Table } from '../parts/table.tsx';

type Keys = UserSettings['keys'];

interface KeyTableProps {
  readonly keys: Keys;
  readonly onChange: (keys: Keys) => void;
}

const COLUMNS = [{ name: 'Act' }, { name: 'Keypad' }, { name: 'Else' }, { name: 'When' }];
const SLOT_WORDS: Readonly<Record<Slot, string>> = { keypad: 'key on the keypad', other: 'other key' };

export function KeyTable({ keys, onChange }: KeyTableProps) {
  const [waiting, setWaiting] = useState<string | null>(null);
  const [says, setSays] = useState('');

  const take = (event: KeyboardEvent, row: ActKeys, slot: Slot) => {
    if (waiting !== slotKey(row.act, slot)) return;
    const stroke = strokeOf(event);
    if (stroke === undefined || stroke === 'Tab') return;
    event.preventDefault();
    event.stopPropagation();
    setWaiting(null);
    if (stroke === 'Escape') setSays('Left as it was.');
    else if (isPrintable(stroke)) setSays(`${stroke} writes on the entry line, so it cannot be an act.`);
    else if (stroke === keyOf(row, slot, keys)) {
      onChange(withKey(keys, row.act, slot, null));
      setSays(`${row.says} has no ${SLOT_WORDS[slot]} now.`);
    } else {
      const before = actsByStroke(keys).get(stroke);
      const holder = ACT_KEYS.find(({ act }) => act === before && act !== row.act);
      // Nobody loses the key of another act, CALL ALL STOP's above all, without having been asked.
      if (holder !== undefined)
        return setSays(
          `${strokeWords(stroke)} is "${holder.says}": take it away there first. Nothing was changed.`,
        );
      onChange(withKey(keys, row.act, slot, stroke));
      setSays(`${strokeWords(stroke)} is now "${row.says}".`);
    }
  };

  const cell = (row: ActKeys, slot: Slot) => {
    const stroke = keyOf(row, slot, keys);
    const isWaiting = waiting === slotKey(row.act, slot);
    const shown = isWaiting ? 'press a key' : stroke === null ? 'none' : strokeWords(stroke);
    return (
      <span className="key-cell" onKeyDownCapture={(event) => take(event, row, slot)}>
        <Act
          kind="calm"
          label={`${row.says}, ${SLOT_WORDS[slot]}: ${shown}`}
          pressed={isWaiting}
          onPress={() => setWaiting(isWaiting ? null : slotKey(row.act, slot))}
        >
          {shown}
        </Act>
      </span>
    );
  };

  return (
    <>
      <p className="fine quiet">
        Press a key's name and then the new key. Esc leaves it, the key it has already takes it away. Letters
        and figures outside the keypad always go to the entry line.
      </p>
      <p role="status">{says}</p>
      <Act kind="calm" onPress={() => onChange({})}>
        All keys as they were at first
      </Act>
      <Table
        caption="Keys"
        captionHidden
        columns={COLUMNS}
        rows={ACT_KEYS.map((row) => ({
          key: row.act,
          cells: [row.says, ...SLOTS.map((slot) => cell(row, slot)), row.when ?? ''],
        }))}
      />
    </>
  );
}
