/** The contract over WebSocket: one frame a call, one an answer, one a push. */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { type RawData, type WebSocket, WebSocketServer } from 'ws';
import { parseJson, parseValue } from '../../shared-model/malformed.ts';
import { callFrame, type HostFrame, LONGEST_FRAME_BYTES, WIRE_PATH } from '../../shared-model/wire/frames.ts';
import { bad } from '../host/answers.ts';
import { callRate } from '../host/call-rate.ts';
import type { ConsoleHost } from '../host/console-host.ts';
import type { Admission } from './admission.ts';

/** Screens at a time; each is one window. */
const MOST_CONNECTIONS = 16;
/** A screen that takes nothing any more is let go before what waits for it fills the memory. */
const MOST_WAITING_BYTES = 2 * LONGEST_FRAME_BYTES;

/** Close codes of RFC 6455, 7.4.1. */
const CLOSE = { goingAway: 1001, unacceptable: 1003, policy: 1008 } as const;

export interface WireServer {
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void;
  close(): void;
}

function turnAway(socket: Duplex, status: string): void {
  socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
}

function send(socket: WebSocket, frame: HostFrame): void {
  if (socket.readyState !== socket.OPEN) return;
  if (socket.bufferedAmount > MOST_WAITING_BYTES) socket.terminate();
  else socket.send(JSON.stringify(frame));
}

type IsWithinRate = ReturnType<typeof callRate>;

/** Takes one frame of a screen. A frame that is no call ends the connection: it is not our page that sent it. */
async function take(
  host: ConsoleHost,
  socket: WebSocket,
  isWithinRate: IsWithinRate,
  data: RawData,
  isBinary: boolean,
): Promise<void> {
  const json = isBinary ? null : parseJson(String(data));
  const frame = json?.ok === true ? parseValue(callFrame, json.value) : null;
  if (frame === null || !frame.ok) return socket.close(CLOSE.unacceptable, 'expected a call');
  const { id, call, request } = frame.value;
  const answer = isWithinRate(call)
    ? await host.call(call, request)
    : bad('refused', `expected fewer calls of ${call} in a second`);
  send(socket, { id, answer });
}

/** @param now milliseconds, monotonic */
export function makeWireServer(host: ConsoleHost, admission: Admission, now: () => number): WireServer {
  const server = new WebSocketServer({
    noServer: true,
    maxPayload: LONGEST_FRAME_BYTES,
    perMessageDeflate: false,
  });
  server.on('connection', (socket: WebSocket) => {
    const unsubscribe = host.subscribe(({ push, value }) => send(socket, { push, value }));
    const isWithinRate = callRate(now);
    socket.on('message', (data, isBinary) => void take(host, socket, isWithinRate, data, isBinary));
    socket.on('close', unsubscribe);
    // An oversize or broken frame: ws closes the connection by itself with the fitting code.
    socket.on('error', unsubscribe);
  });
  return {
    upgrade: (request, socket, head) => {
      socket.on('error', () => socket.destroy());
      const { pathname } = new URL(request.url ?? '/', 'http://127.0.0.1');
      if (pathname !== WIRE_PATH) return turnAway(socket, '404 Not Found');
      if (admission.headersProblem(request.headers) !== null)
        return turnAway(socket, '421 Misdirected Request');
      // WebSockets are outside the same-origin policy, so one without an Origin is turned away as well.
      if (request.headers.origin !== admission.origin) return turnAway(socket, '403 Forbidden');
      if (!admission.hasCookie(request.headers)) return turnAway(socket, '401 Unauthorized');
      if (server.clients.size >= MOST_CONNECTIONS) return turnAway(socket, '503 Service Unavailable');
      server.handleUpgrade(request, socket, head, (client) => server.emit('connection', client, request));
    },
    close: () => {
      for (const client of server.clients) client.close(CLOSE.goingAway);
      server.close();
      for (const client of server.clients) client.terminate();
    },
  };
}
