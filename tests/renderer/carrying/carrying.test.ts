/** The plan that a console carries out, looked for when its page begins. */
import { describe, expect, it } from 'vitest';
import { carryingOf } from '../../../renderer/carrying/carrying.ts';
import type { ConsoleStore } from '../../../renderer/console/console-store.ts';

describe('a plan that was being carried out', () => {
  it('is looked for again where the host did not answer, and only then', async () => {
    const asked: string[] = [];
    let answer: object = { ok: false, problem: { kind: 'fault', says: 'The connection was lost.' } };
    let tell = (): void => undefined;
    let state = { phase: 'running' };
    const store = {
      connection: {
        call: async (name: string) => {
          asked.push(name);
          return answer;
        },
      },
      get: () => ({ evening: { id: '1', state } }),
      subscribe: (listener: () => void) => {
        tell = listener;
        return () => undefined;
      },
    } as unknown as ConsoleStore;
    const goesOn = async () => {
      state = { ...state };
      tell();
      await Promise.resolve();
      await Promise.resolve();
    };
    carryingOf(store);
    await goesOn();
    expect(asked).toEqual(['keep.list']);
    answer = { ok: true, value: [] };
    await goesOn();
    await goesOn();
    expect(asked).toEqual(['keep.list', 'keep.list']);
  });
});
