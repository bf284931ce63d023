/** The form of an evening as one file, for another installation: everything that is needed to replay it, and every link of its chain. */
import { railroadDocument } from '../../../shared-model/railroad/document.ts';
import { sessionEvent } from '../../../shared-model/session/event.ts';
import { z } from '../../../shared-model/zod.ts';
import { contentHash, type Hash } from '../log/chain.ts';

/** Most entries of an evening that is carried as a file; the same going out and coming in, so that what was saved can be brought in. */
export const MOST_ENTRIES = 100_000;

const link = z.string().regex(/^[0-9a-f]{64}$/, 'expected a SHA-256 in 64 hexadecimal digits');
/** What a user may change of an evening at any time, so that it is in no link of the chain. */
interface Labels {
  readonly name: string;
  readonly note: string;
  readonly endedAt: string | null;
  readonly head: Hash;
}

/** SHA-256 that shows a change of name, note or end on the way. */
export const sealOf = ({ name, note, endedAt, head }: Labels): Hash =>
  contentHash({ name, note, endedAt, head });

const moment = z.iso.datetime({ error: 'expected a moment in UTC as RFC 3339 writes it' });

/** The file but for its entries, which are read one by one. */
export const eveningFile = z.strictObject({
  format: z.literal('cabward-evening/1'),
  uid: z.string().min(1).max(80),
  name: z.string().max(120),
  note: z.string().max(4000),
  openedAt: moment,
  endedAt: moment.nullable(),
  railroadHash: link,
  railroad: railroadDocument,
  initial: z.record(z.string(), z.unknown()),
  entries: z.array(z.unknown()).max(0, 'expected one list of entries'),
  head: link,
  /** Of the rest: what the chain does not hold, and which chain it belongs to. */
  seal: link,
});

export const eveningFileEntry = z.strictObject({ event: sessionEvent, link });
