/**
 * The contract as it travels: what the frames of the WebSocket look like, and the bridge that the preload puts on `window.cabward`.
 * Both carry the same calls and pushes of `contract.ts`.
 */
import { z } from '../zod.ts';
import type { CallName, PushName } from './contract.ts';

/** Path of the WebSocket on the web host, beside the page. */
export const WIRE_PATH = '/wire';

/** Longest frame in either direction, in bytes of UTF-8. */
export const LONGEST_FRAME_BYTES = 32 * 1024 * 1024;

/** A call of the screen; `id` counts up on each connection. */
export const callFrame = z.strictObject({
  id: z.number().int().positive(),
  call: z.string().max(60),
  request: z.unknown(),
});
export type CallFrame = z.infer<typeof callFrame>;

/** Why a call was not answered, in words for the user. */
export const problem = z.strictObject({
  kind: z.enum(['bad-input', 'not-found', 'refused', 'fault']),
  says: z.string(),
  path: z.string().optional(),
});

const answer = z.discriminatedUnion('ok', [
  z.strictObject({ ok: z.literal(true), value: z.unknown() }),
  z.strictObject({ ok: z.literal(false), problem }),
]);

/** What the host sends: the answer to a call, or a push. */
export const hostFrame = z.union([
  z.strictObject({ id: z.number().int().positive(), answer }),
  z.strictObject({ push: z.string().max(60), value: z.unknown() }),
]);
export type HostFrame = z.infer<typeof hostFrame>;

/** What the preload puts on `window.cabward`. Requests and answers are parsed on both sides of it, so they are unknown here. */
export interface Bridge {
  call(name: CallName, request: unknown): Promise<unknown>;
  /** @returns a function that ends the listening */
  on(name: PushName, listener: (value: unknown) => void): () => void;
}

/** The answer to a call as it comes over the bridge. */
export const bridgeAnswer = answer;
