/** A guest's train after the evening: offered to the railroad's document, as it then is. */
import { describe, expect, it } from 'vitest';
import type { ConsoleConnection } from '../../../renderer/connection/console-connection.ts';
import { guestsOf, keepGuest, withGuest } from '../../../renderer/desk/guests.ts';
import { demoRailroad } from '../../../shared-model/demo/railroad.ts';
import { played, running } from './demo-evening.ts';

const evening = played(running, {
  do: 'add-train',
  train: 't88',
  name: 'No. 88 guest',
  length: 900,
  amps: 2.5,
});
const [guest] = guestsOf(evening.state);
if (guest === undefined) throw new Error('no guest came');

/** A library with one railroad, and what was called. */
function library(hasDraft: boolean, document: unknown = demoRailroad) {
  const called: { readonly call: string; readonly request: unknown }[] = [];
  const card = { id: 'r1', name: demoRailroad.name, version: 1, hasDraft };
  const replies: Record<string, unknown> = {
    'railroads.list': [card],
    'railroads.read': { id: 'r1', document, version: 1, isDraft: hasDraft },
  };
  const connection = {
    call: (call: string, request: unknown) => {
      called.push({ call, request });
      return Promise.resolve({ ok: true, value: replies[call] ?? card });
    },
  } as unknown as ConsoleConnection;
  return { connection, names: () => called.map(({ call }) => call), called };
}

describe("a guest's train", () => {
  it('is one that was added for tonight, with the length and current it has at the end', () => {
    expect(guestsOf(evening.state)).toEqual([{ id: 't88', name: 'No. 88 guest', length: 900, amps: 2.5 }]);
    expect(guestsOf(running.state)).toEqual([]);
  });

  it('joins the trains of the document once', () => {
    const once = withGuest(demoRailroad, guest);
    expect(once.trains.at(-1)).toEqual(guest);
    expect(withGuest(once, guest)).toBe(once);
  });

  it('is published at once where nobody is drawing', async () => {
    const { connection, names, called } = library(false);
    expect(await keepGuest(connection, demoRailroad.name, guest)).toMatch(/belongs to .* from now on/);
    expect(names()).toEqual(['railroads.list', 'railroads.read', 'railroads.saveDraft', 'railroads.publish']);
    expect(called[2]?.request).toMatchObject({ document: withGuest(demoRailroad, guest) });
  });

  it('goes into the draft, and no further, where there is one', async () => {
    const { connection, names } = library(true);
    expect(await keepGuest(connection, demoRailroad.name, guest)).toMatch(/is in the draft/);
    expect(names()).not.toContain('railroads.publish');
  });

  it('leaves a draft that is not whole alone, and a railroad that is gone', async () => {
    const { connection, names } = library(true, { half: 'drawn' });
    expect(await keepGuest(connection, demoRailroad.name, guest)).toMatch(/not whole yet/);
    expect(names()).not.toContain('railroads.saveDraft');
    expect(await keepGuest(library(false).connection, 'Elsewhere', guest)).toMatch(/not in the library/);
  });
});
