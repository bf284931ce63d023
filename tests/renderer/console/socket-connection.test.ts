import { describe, expect, it } from 'vitest';
import { type Socket, socketConnection } from '../../../renderer/connection/socket-connection.ts';
import { userSettings } from '../../../shared-model/wire/contract.ts';

/** A host at the other end of sockets that the test opens, answers and breaks. */
function hostDouble() {
  const sockets: (Socket & { sent: { id: number; call: string; request: unknown }[] })[] = [];
  const waits: { act: () => void; milliseconds: number }[] = [];
  const open = () => {
    const socket: (typeof sockets)[number] = {
      sent: [],
      send: (text) => socket.sent.push(JSON.parse(text)),
      close: () => socket.onclose?.(),
      onopen: null,
      onmessage: null,
      onclose: null,
    };
    sockets.push(socket);
    return socket;
  };
  const connection = socketConnection(open, (act, milliseconds) => waits.push({ act, milliseconds }));
  const last = () => sockets.at(-1) as (typeof sockets)[number];
  return {
    connection,
    sockets,
    waits,
    last,
    says: (frame: unknown) =>
      last().onmessage?.({ data: typeof frame === 'string' ? frame : JSON.stringify(frame) }),
  };
}

const settings = userSettings.parse({});

describe('the connection over a socket', () => {
  it('does nothing, and says so, before it is open', async () => {
    const { connection, last } = hostDouble();
    const answer = await connection.call('evening.read', {});
    expect(connection.link()).toBe('connecting');
    expect(answer).toMatchObject({
      ok: false,
      problem: { kind: 'fault', says: expect.stringContaining('Nothing was done') },
    });
    expect(last().sent).toEqual([]);
  });

  it('gives each answer to the call that it belongs to, in whatever order', async () => {
    const { connection, last, says } = hostDouble();
    last().onopen?.();
    const [first, second] = [
      connection.call('evening.read', {}),
      connection.call('settings.write', { sound: true }),
    ];
    expect(last().sent.map(({ id, call }) => [id, call])).toEqual([
      [1, 'evening.read'],
      [2, 'settings.write'],
    ]);
    says({ id: 2, answer: { ok: true, value: settings } });
    says({ id: 1, answer: { ok: false, problem: { kind: 'not-found', says: 'nothing there' } } });
    expect(await second).toEqual({ ok: true, value: settings });
    expect(await first).toEqual({ ok: false, problem: { kind: 'not-found', says: 'nothing there' } });
  });

  it('takes an answer that is not what the contract says as a fault, and names where', async () => {
    const { connection, last, says } = hostDouble();
    last().onopen?.();
    const call = connection.call('settings.write', {});
    says({ id: 1, answer: { ok: true, value: { ...settings, theme: 'pink' } } });
    expect(await call).toMatchObject({
      ok: false,
      problem: { kind: 'fault', says: expect.stringContaining('theme') },
    });
  });

  it('tells pushes to those who listen, and to nobody after they stopped', () => {
    const { connection, last, says } = hostDouble();
    last().onopen?.();
    const heard: unknown[] = [];
    const stop = connection.on('settings.changed', (push) => heard.push(push.theme));
    says({ push: 'settings.changed', value: settings });
    stop();
    says({ push: 'settings.changed', value: settings });
    expect(heard).toEqual(['dark']);
  });

  it.each([
    'not json',
    '[]',
    '{"push":"nothing known","value":1}',
    '{"push":"settings.changed","value":{"theme":"pink"}}',
  ])('passes over a frame that it does not know: %s', (frame) => {
    const { connection, last, says } = hostDouble();
    last().onopen?.();
    const heard: unknown[] = [];
    connection.on('settings.changed', (push) => heard.push(push));
    says(frame);
    expect(heard).toEqual([]);
    expect(connection.link()).toBe('open');
  });

  it('is lost when the socket closes: what waits is answered, with the warning that it may have been done', async () => {
    const { connection, last } = hostDouble();
    last().onopen?.();
    const links: string[] = [];
    connection.onLink((link) => links.push(link));
    const call = connection.call('evening.read', {});
    last().close();
    expect(await call).toMatchObject({
      ok: false,
      problem: { says: expect.stringContaining('may have been done') },
    });
    expect(links).toEqual(['lost']);
  });

  it('tries again, each time a little later, until it is open', () => {
    const { connection, waits, last, sockets } = hostDouble();
    last().onopen?.();
    last().close();
    for (let i = 0; i < 6; i += 1) {
      waits.at(-1)?.act();
      last().close();
    }
    expect(waits.map(({ milliseconds }) => milliseconds)).toEqual([250, 500, 1000, 2000, 4000, 4000, 4000]);
    waits.at(-1)?.act();
    last().onopen?.();
    expect(connection.link()).toBe('open');
    last().close();
    expect(waits.at(-1)?.milliseconds).toBe(250);
    expect(sockets).toHaveLength(8);
  });
});
