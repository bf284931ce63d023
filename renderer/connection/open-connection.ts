/** Chooses the way to the host: the bridge inside Electron, else the WebSocket of the page's own address. */
import { type Bridge, WIRE_PATH } from '../../shared-model/wire/frames.ts';
import { bridgeConnection } from './bridge-connection.ts';
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

export function openConnection(): ConsoleConnection {
  if (window.cabward !== undefined) return bridgeConnection(window.cabward);
  return socketConnection(openSocket, (act, milliseconds) => {
    window.setTimeout(act, milliseconds);
  });
}
