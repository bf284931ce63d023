/** Chooses the way to the host: the bridge inside Electron, else the WebSocket of the page's own address. */
import { type Bridge, WIRE_PATH } from '../../shared-model/wire/frames.ts';
import { bridgeConnection } from './bridge-connection.ts';
import { makeComeback } from './comeback.ts';
import type { ConsoleConnection } from './console-connection.ts';
import { type Socket, socketConnection } from './socket-connection.ts';

declare global {
  interface Window {
    readonly cabward?: Bridge;
  }
}

function openSocket(): Socket {
  const { protocol, host } = window.location;
  const socket = new WebSocket(`${protocol === 'https:' ? 'wss' : 'ws'}://${host}${WIRE_PATH}`);
  return socket as unknown as Socket;
}

async function askJson(address: string): Promise<unknown> {
  const response = await fetch(address, { cache: 'no-store', credentials: 'same-origin' });
  return response.ok ? response.json() : null;
}

export function openConnection(): ConsoleConnection {
  if (window.cabward !== undefined) return bridgeConnection(window.cabward);
  const comeback = makeComeback(window.location.origin, askJson);
  const connection = socketConnection(openSocket, (act, milliseconds) => {
    window.setTimeout(() => void comeback.comeBack().finally(act), milliseconds);
  });
  connection.onLink((link) => {
    if (link === 'open') void comeback.learn();
  });
  return connection;
}
