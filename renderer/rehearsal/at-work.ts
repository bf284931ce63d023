/**
 * The rehearsal that is being worked on, written down by itself: a page that is read anew, a window that breaks down and a host that is
 * started again find it where it was. Each is a kept document of its own until it is begun anew, whether it has a name or not.
 */
import type { Connection, ReplyOf } from '../../shared-model/wire/contract.ts';
import { z } from '../../shared-model/zod.ts';
import { keptRehearsal } from './kept-rehearsal.ts';

/** The kind under which the host keeps them. */
export const AT_WORK = 'rehearsal-at-work';

export const atWork = z.strictObject({
  format: z.literal('cabward-rehearsal-at-work/1'),
  /** The evening that went on when it was begun; null where there was none. */
  evening: z.string().nullable(),
  /** The name under which it was kept; null where it was not. */
  keptAs: z.string().nullable(),
  rehearsal: keptRehearsal,
});
export type AtWork = z.infer<typeof atWork>;

/** Whether it is of that evening, or was begun without one: then it may be wanted in any. */
export const isOf = (work: Pick<AtWork, 'evening'>, evening: string | null): boolean =>
  work.evening === null || work.evening === evening;

/** Those that are neither at work here nor under a name, to be opened or deleted. */
export async function listAtWork(connection: Connection, own: string | null): Promise<ReplyOf<'keep.list'>> {
  const rows = await connection.call('keep.list', { kind: AT_WORK });
  return rows.ok ? rows.value.filter(({ id }) => id !== own) : [];
}
