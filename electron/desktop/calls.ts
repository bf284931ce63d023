/** Carries the contract over Electron's IPC: a channel for each call of the table, and the pushes to every window. */
import { type IpcMainInvokeEvent, ipcMain, type WebContents } from 'electron';
import { type Answer, CALLS } from '../../shared-model/wire/contract.ts';
import { callRate } from '../host/call-rate.ts';
import type { ConsoleHost } from '../host/console-host.ts';
import { callChannel, pushChannel } from './channels.ts';
import { isConsoleAddress } from './console-address.ts';

type Refused = Extract<Answer<unknown>, { ok: false }>;
const refused = (says: string): Refused => ({ ok: false, problem: { kind: 'refused', says } });

/** Whether a call comes from the console's own page, at the top of a window of ours. */
export function isOwnPage({ senderFrame, sender }: IpcMainInvokeEvent): boolean {
  // The frame is null when it is gone or has gone elsewhere since it called.
  if (senderFrame === null || senderFrame !== sender.mainFrame || senderFrame.parent !== null) return false;
  return isConsoleAddress(senderFrame.url);
}

/**
 * Answers every call of the contract, and nothing else. Each request is parsed by the host.
 *
 * @param now milliseconds, monotonic
 */
export function carryCalls(host: ConsoleHost, now: () => number): void {
  const isWithinRate = callRate(now);
  for (const name of Object.keys(CALLS))
    ipcMain.handle(callChannel(name), async (event, request: unknown) => {
      if (!isOwnPage(event)) return refused('expected a call from the console’s own page');
      if (!isWithinRate(name)) return refused(`expected fewer calls of ${name} in a second`);
      return await host.call(name, request);
    });
}

/** Tells a window every push, until it is closed. */
export function carryPushes(host: ConsoleHost, contents: WebContents): void {
  const end = host.subscribe(({ push, value }) => {
    if (!contents.isDestroyed()) contents.send(pushChannel(push), value);
  });
  contents.once('destroyed', end);
}
