import { describe, expect, it } from 'vitest';
import { bridgeConnection } from '../../../renderer/connection/bridge-connection.ts';
import { userSettings } from '../../../shared-model/wire/contract.ts';

const settings = userSettings.parse({});

describe('the connection over the bridge of the preload', () => {
  it('hands calls on and parses what comes back', async () => {
    const asked: unknown[] = [];
    const connection = bridgeConnection({
      call: async (name, request) => {
        asked.push([name, request]);
        return { ok: true, value: settings };
      },
      on: () => () => undefined,
    });
    expect(await connection.call('settings.write', { sound: true })).toEqual({ ok: true, value: settings });
    expect(asked).toEqual([['settings.write', { sound: true }]]);
    expect(connection.link()).toBe('open');
  });

  it('turns an exception of the bridge into a fault', async () => {
    const connection = bridgeConnection({
      call: () => Promise.reject(new Error('no handler')),
      on: () => () => undefined,
    });
    expect(await connection.call('evening.read', {})).toMatchObject({
      ok: false,
      problem: { kind: 'fault', says: expect.stringContaining('no handler') },
    });
  });

  it('parses pushes, and passes over those that it does not know', () => {
    let tell: (value: unknown) => void = () => undefined;
    const connection = bridgeConnection({
      call: async () => undefined,
      on: (_, listener) => {
        tell = listener;
        return () => undefined;
      },
    });
    const heard: unknown[] = [];
    connection.on('evening.opened', (push) => heard.push(push));
    tell({ id: 'e1' });
    tell({ id: 7 });
    expect(heard).toEqual([{ id: 'e1' }]);
  });
});
