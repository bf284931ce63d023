/** The connection inside Electron: over the bridge that the preload puts on `window.cabward`. It cannot be lost while the window lives. */
import type { Bridge } from '../../shared-model/wire/frames.ts';
import { type ConsoleConnection, fault, parseAnswer, parsePush } from './console-connection.ts';

export function bridgeConnection(bridge: Bridge): ConsoleConnection {
  return {
    link: () => 'open',
    onLink: () => () => undefined,
    async call(name, request) {
      try {
        return parseAnswer(name, await bridge.call(name, request));
      } catch (cause) {
        return fault(
          `The host did not answer ${name}: ${cause instanceof Error ? cause.message : String(cause)}`,
        );
      }
    },
    on(name, listener) {
      return bridge.on(name, (raw) => {
        const value = parsePush(name, raw);
        if (value !== undefined) listener(value);
      });
    },
  };
}
