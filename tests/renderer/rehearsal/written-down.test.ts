/** Work that is written down as it changes: what cannot be written is said, and not lost. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { autosave } from '../../../renderer/rehearsal/written-down.ts';
import type { Connection } from '../../../shared-model/wire/contract.ts';

const GONE = { ok: false, problem: { kind: 'fault', says: 'The console is not connected.' } };

describe('work that cannot be written', () => {
  let host: { answers: object; written: unknown[] };
  const connection: Pick<Connection, 'call'> = {
    call: async (name: string, request: { readonly value?: unknown }) => {
      if (name === 'keep.write' && host.answers !== GONE) host.written.push(request.value);
      return host.answers as never;
    },
  } as never;
  beforeEach(() => {
    vi.useFakeTimers();
    vi.stubGlobal('navigator', { locks: { request: async () => undefined } });
    host = { answers: GONE, written: [] };
  });
  afterEach(() => {
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });

  it('is said, and written by itself when the host is there again', async () => {
    const saves = autosave<string>(connection, 'work');
    const heard: (string | null)[] = [];
    saves.onProblem(() => heard.push(saves.problem()));
    saves.put('as it stands');
    await vi.advanceTimersByTimeAsync(500);
    expect([heard, host.written]).toEqual([['The console is not connected.'], []]);
    host.answers = { ok: true, value: {} };
    await vi.advanceTimersByTimeAsync(5000);
    expect([heard.at(-1), host.written]).toEqual([null, ['as it stands']]);
  });

  it('gives way to what comes after it, and to nothing where there is nothing to come back to', async () => {
    const saves = autosave<string>(connection, 'work');
    saves.put('before');
    await vi.advanceTimersByTimeAsync(500);
    host.answers = { ok: true, value: {} };
    saves.put('after');
    await vi.advanceTimersByTimeAsync(10_000);
    expect(host.written).toEqual(['after']);
    host.answers = GONE;
    saves.put('discarded');
    await vi.advanceTimersByTimeAsync(500);
    host.answers = { ok: true, value: {} };
    saves.put(null);
    expect(saves.problem()).toBeNull();
    await vi.advanceTimersByTimeAsync(10_000);
    expect(host.written).toEqual(['after']);
  });
});
