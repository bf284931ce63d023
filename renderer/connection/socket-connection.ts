/** The connection in a browser: a WebSocket to the host on this machine, opened again by itself when it is lost. */
import type { Answer, CallName } from '../../shared-model/wire/contract.ts';
import { type CallFrame, hostFrame } from '../../shared-model/wire/frames.ts';
import {
  type ConsoleConnection,
  fault,
  isPushName,
  type LinkState,
  Listeners,
  parseAnswer,
  parsePush,
} from './console-connection.ts';

/** The part of a WebSocket that is used; a test gives its own. */
export interface Socket {
  send(text: string): void;
  close(): void;
  onopen: (() => void) | null;
  onmessage: ((event: { readonly data: unknown }) => void) | null;
  onclose: (() => void) | null;
}

/** Waits before another try, in milliseconds; the last one is kept. */
const RETRY_MS = [250, 500, 1000, 2000, 4000] as const;

const LOST =
  'The connection to the host was lost before it answered. It may have been done or not: look at the record before doing it again.';
const NOT_CONNECTED = 'The console is not connected to its host. Nothing was done.';

interface Waiting {
  readonly name: CallName;
  readonly settle: (answer: Answer<never>) => void;
}

/**
 * @param open makes a new socket to the host
 * @param later runs something after so many milliseconds
 */
export function socketConnection(
  open: () => Socket,
  later: (act: () => void, milliseconds: number) => void,
): ConsoleConnection {
  const pushes = new Listeners();
  const links = new Listeners<'link'>();
  const waiting = new Map<number, Waiting>();
  let link: LinkState = 'connecting';
  let socket: Socket | null = null;
  let lastId = 0;
  let tries = 0;

  const become = (next: LinkState) => {
    if (next === link) return;
    link = next;
    links.tell('link', next);
  };

  const take = (text: unknown) => {
    let raw: unknown;
    try {
      raw = JSON.parse(String(text));
    } catch {
      return;
    }
    const frame = hostFrame.safeParse(raw);
    if (!frame.success) return;
    if ('push' in frame.data) {
      const { push, value } = frame.data;
      if (!isPushName(push)) return;
      const parsed = parsePush(push, value);
      if (parsed !== undefined) pushes.tell(push, parsed);
      return;
    }
    const call = waiting.get(frame.data.id);
    waiting.delete(frame.data.id);
    call?.settle(parseAnswer(call.name, frame.data.answer) as Answer<never>);
  };

  const connect = () => {
    const fresh = open();
    fresh.onopen = () => {
      tries = 0;
      socket = fresh;
      become('open');
    };
    fresh.onmessage = (event) => take(event.data);
    fresh.onclose = () => {
      const wasOpen = socket === fresh;
      socket = null;
      if (wasOpen) become('lost');
      for (const call of waiting.values()) call.settle(fault(LOST));
      waiting.clear();
      later(connect, RETRY_MS[Math.min(tries, RETRY_MS.length - 1)] ?? 4000);
      tries += 1;
    };
  };
  connect();

  return {
    link: () => link,
    onLink: (listener) => links.add('link', (next) => listener(next as LinkState)),
    call(name, request) {
      const through = socket;
      if (through === null) return Promise.resolve(fault(NOT_CONNECTED));
      lastId += 1;
      const frame: CallFrame = { id: lastId, call: name, request };
      return new Promise((resolve) => {
        waiting.set(frame.id, { name, settle: resolve });
        through.send(JSON.stringify(frame));
      });
    },
    on: (name, listener) => pushes.add(name, listener as (value: unknown) => void),
  };
}
