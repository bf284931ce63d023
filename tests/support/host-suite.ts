/** What every way to the host has to hold: one suite, run against each transport. */
import { expect, test } from 'vitest';
import type { Push } from '../../electron/host/pushes.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { Answer } from '../../shared-model/wire/contract.ts';
import passingSiding from './passing-siding.railroad.json' with { type: 'json' };

/** A host behind some transport, on a log of its own. */
export interface HostUnderTest {
  call(name: string, request: unknown): Promise<Answer<unknown>>;
  /** The pushes that came so far, oldest first. */
  readonly pushes: readonly Push[];
}

/** The value of a good answer. */
export async function answered<Value>(answer: Promise<Answer<unknown>>): Promise<Value> {
  const given = await answer;
  if (!given.ok) throw new Error(`${given.problem.kind}: ${given.problem.says}`);
  return given.value as Value;
}

/** The problem of a bad answer. */
async function problemOf(answer: Promise<Answer<unknown>>) {
  const given = await answer;
  if (given.ok) throw new Error('expected a problem');
  return given.problem;
}

export const item = (input: object) => ({ input });

/** Imports the example railroad and opens an evening on it. */
export async function openEvening(
  host: HostUnderTest,
  alone = false,
): Promise<{ readonly id: string; readonly state: SessionState; readonly railroad: string }> {
  const text = JSON.stringify(passingSiding);
  const card = await answered<{ id: string }>(host.call('railroads.import', { text, name: 'siding' }));
  const live = await answered<{ id: string; state: SessionState }>(
    host.call('evening.open', { railroad: card.id, alone }),
  );
  return { ...live, railroad: card.id };
}

const pushesNamed = (host: HostUnderTest, name: string) => host.pushes.filter(({ push }) => push === name);

/** Declares the suite for one transport. */
export function hostSuite(transport: string, open: () => Promise<HostUnderTest>): void {
  test(`${transport}: hello tells version, settings, and that the log can be written`, async () => {
    const host = await open();
    expect(await host.call('hello', {})).toMatchObject({
      ok: true,
      value: { evening: null, settings: { theme: 'dark' }, log: { writable: true, says: null } },
    });
  });

  test.each([
    ['hello', { extra: 1 }, /"extra" is unknown here/],
    ['hello', null, /expected object/],
    ['evening.send', { items: [] }, /at least 1/],
    ['evening.send', { items: [{ input: { do: 'launch' } }] }, /expected one of/],
    ['evening.send', { items: [{ input: { do: 'note', text: 'a\ud800' } }] }, /well-formed Unicode/],
    ['evenings.events', { id: '1', from: 0, to: 5 }, /more than 0/],
    ['settings.write', { theme: 'pink' }, /expected one of/],
    ['keep.write', { kind: 'a', id: 'b' }, /missing/],
  ])(`${transport}: the call %s with %j is malformed, and says where`, async (name, request, says) => {
    const host = await open();
    const problem = await problemOf(host.call(name, request));
    expect(problem.kind).toBe('bad-input');
    expect(`${problem.path ?? ''} ${problem.says}`).toMatch(says);
  });

  test(`${transport}: settings change by what is given, are kept, and everybody is told`, async () => {
    const host = await open();
    await answered(host.call('settings.write', { theme: 'light' }));
    await answered(host.call('settings.write', { screenInches: 27 }));
    expect(await answered(host.call('hello', {}))).toMatchObject({
      settings: { theme: 'light', screenInches: 27, lengths: 'imperial' },
    });
    expect(pushesNamed(host, 'settings.changed')).toHaveLength(2);
  });

  test(`${transport}: a batch is taken whole, pushed, and read back from the log`, async () => {
    const host = await open();
    const { id } = await openEvening(host);
    const items = [
      item({ do: 'assign-cab', cab: '1', person: 'Avery' }),
      item({ do: 'place-train', train: 't7', edge: 'e1', toward: 'g1', cab: '1' }),
    ];
    const sent = await answered<{ events: { entry: number }[]; refused: null }>(
      host.call('evening.send', { items }),
    );
    expect(sent.events.map(({ entry }) => entry)).toEqual([2, 3]);
    expect(sent.refused).toBeNull();
    expect(pushesNamed(host, 'evening.events').map(({ value }) => value)).toEqual([
      { id, events: sent.events },
    ]);
    expect(await answered(host.call('evenings.events', { id, from: 2, to: 9 }))).toEqual(sent.events);
  });

  test(`${transport}: a batch whose third item is refused leaves nothing behind but the refusal`, async () => {
    const host = await open();
    const { id } = await openEvening(host);
    const before = await answered<{ state: SessionState }>(host.call('evening.read', {}));
    const items = [
      item({ do: 'assign-cab', cab: '1', person: 'Avery' }),
      item({ do: 'note', text: 'never kept' }),
      item({ do: 'resume' }),
    ];
    const sent = await answered<{ events: unknown[]; refused: unknown }>(
      host.call('evening.send', { items }),
    );
    expect(sent).toMatchObject({
      events: [],
      refused: { entry: 2, outcome: 'refused', reasons: [{ code: 'not-now' }] },
    });
    const after = await answered<{ state: SessionState }>(host.call('evening.read', {}));
    expect({ ...after.state, entries: 0, at: 0 }).toEqual({ ...before.state, entries: 0, at: 0 });
    const logged = await answered<unknown[]>(host.call('evenings.events', { id, from: 1, to: 99 }));
    expect(logged).toHaveLength(2);
    expect(JSON.stringify(logged)).not.toContain('never kept');
  });

  test(`${transport}: what names something that does not exist is bad input, and nothing is logged`, async () => {
    const host = await open();
    const { id } = await openEvening(host);
    const items = [item({ do: 'note', text: 'a' }), item({ do: 'take-off', train: 'ghost' })];
    expect(await problemOf(host.call('evening.send', { items }))).toMatchObject({
      kind: 'bad-input',
      path: '$.items[1].input',
      says: expect.stringContaining('ghost'),
    });
    expect(await answered(host.call('evenings.events', { id, from: 1, to: 99 }))).toHaveLength(1);
  });

  test(`${transport}: there is one evening at a time, and an ended one takes nothing more`, async () => {
    const host = await open();
    const { railroad } = await openEvening(host);
    expect(await problemOf(host.call('evening.open', { railroad, alone: false }))).toMatchObject({
      kind: 'refused',
    });
    await answered(host.call('evening.send', { items: [item({ do: 'end-session' })] }));
    const late = host.call('evening.send', { items: [item({ do: 'note', text: 'late' })] });
    expect(await problemOf(late)).toMatchObject({ kind: 'refused' });
    expect(await answered(host.call('evenings.list', {}))).toMatchObject([
      { entries: 2, endedAt: expect.any(String) },
    ]);
    await answered(host.call('evening.open', { railroad, alone: true }));
  });

  test(`${transport}: a large answer arrives whole`, async () => {
    const host = await open();
    const value = { text: 'ä'.repeat(1_000_000) };
    await answered(host.call('keep.write', { kind: 'rehearsal', id: 'large', value }));
    expect(await answered(host.call('keep.list', { kind: 'rehearsal' }))).toMatchObject([
      { id: 'large', value },
    ]);
  });
}

/** For the transports that carry any name: over IPC a name without a channel goes nowhere. */
export function unknownCallSuite(transport: string, open: () => Promise<HostUnderTest>): void {
  test.each(['no.such.call', 'constructor', '', '__proto__'])(
    `${transport}: "%s" is no call of the contract`,
    async (name) => {
      const host = await open();
      expect(await problemOf(host.call(name, {}))).toMatchObject({
        kind: 'bad-input',
        says: expect.stringContaining('expected a call of the contract'),
      });
    },
  );
}
