/** A setting against the present state: what differs, and the orders that bring it about on the real engine. */
import { expect, test } from 'vitest';
import { displaySetting } from '../../shared-model/railroad/display-setting.ts';
import { FIRST_ANSWERS } from '../../shared-model/railroad/quick-start/answers.ts';
import { firstRailroad } from '../../shared-model/railroad/quick-start/first-railroad.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, takeBatch } from '../../shared-model/session/evening.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import { positionsNow, settingDifferences } from '../../shared-model/session/setting-orders.ts';

const railroad = indexRailroad(firstRailroad({ ...FIRST_ANSWERS, loops: 2, throttles: 2 }));
const display = displaySetting(railroad);
if (display === null) throw new Error('the quick start of two loops allows a display');

const items = (...inputs: readonly object[]) => inputs.map((input) => ({ input: sessionInput.parse(input) }));
const begun = takeBatch(
  newEvening(railroad),
  0,
  items({ do: 'open-session' }, { do: 'throw-turnout', turnout: 'T1', position: 'reverse' }),
);
if (!begun.ok) throw new Error('the evening does not begin');

test('turnouts come before selectors; what stands right is not told', () => {
  const differences = settingDifferences(begun.evening.state, display.positions);
  expect(differences.map(({ id, now, to }) => [id, now, to])).toEqual([
    ['T1', 'reverse', 'normal'],
    ...['K1', 'K2', 'K3', 'K4'].map((id) => [id, 'off', '1']),
    ...['K5', 'K6', 'K7', 'K8'].map((id) => [id, 'off', '2']),
  ]);
});

test('its orders, carried out, leave no difference', () => {
  const orders = settingDifferences(begun.evening.state, display.positions).flatMap(
    ({ order }) => order ?? [],
  );
  const applied = takeBatch(
    begun.evening,
    1,
    orders.map((input) => ({ input })),
  );
  if (!applied.ok) throw new Error('an order was refused');
  expect(settingDifferences(applied.evening.state, display.positions)).toEqual([]);
  expect(positionsNow(applied.evening.state)).toEqual(display.positions);
});

test('a knob that this evening’s railroad does not have is told, and has no order', () => {
  const other = { selectors: { K99: 'off' as const }, turnouts: {}, toggles: { H77: true } };
  expect(settingDifferences(begun.evening.state, other)).toEqual([
    { id: 'K99', now: null, to: 'off', order: null },
    { id: 'H77', now: null, to: 'on', order: null },
  ]);
});
