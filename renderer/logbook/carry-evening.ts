/** Carries an evening out of the log as a file, and in from one, part by part: a long one fits into no single message. */
import type { Answer, Connection, EveningCard } from '../../shared-model/wire/contract.ts';

/** In one message, with room to spare: written as JSON on its way, a part grows (see LONGEST_FRAME_BYTES). */
const PART_BYTES = 4 * 1024 * 1024;

/** Somebody who is told how far it is, and can give it up. */
export interface Follower {
  readonly tell: (words: string) => void;
  readonly signal: AbortSignal;
}

const count = (entries: number): string => entries.toLocaleString('en');
const megabytes = (bytes: number): string => `${(bytes / 1_000_000).toFixed(1)} MB`;

/** @returns the file and its name; null where it was given up */
export async function eveningAsFile(
  connection: Connection,
  { id, entries }: EveningCard,
  { tell, signal }: Follower,
): Promise<Answer<{ readonly name: string; readonly file: Blob }> | null> {
  const texts: string[] = [];
  let after = 0;
  while (!signal.aborted) {
    tell(`Writing it: ${count(after)} of ${count(entries)} entries.`);
    const part = await connection.call('evenings.export', { id, after });
    if (!part.ok) return part;
    const { name, text, next } = part.value;
    texts.push(text);
    if (next === null)
      return { ok: true, value: { name, file: new Blob(texts, { type: 'application/json' }) } };
    after = next;
  }
  return null;
}

/** Sends all of a file but its last part, which it returns; null where it was given up. */
async function sendParts(
  connection: Connection,
  name: string,
  file: File,
  { tell, signal }: Follower,
): Promise<Answer<string> | null> {
  // A character whose bytes are in two parts goes with the second.
  const decoder = new TextDecoder();
  let size = 0;
  for (let from = 0; !signal.aborted; from += PART_BYTES) {
    const isLast = from + PART_BYTES >= file.size;
    const bytes = await file.slice(from, from + PART_BYTES).arrayBuffer();
    const text = decoder.decode(bytes, { stream: !isLast });
    if (isLast) return { ok: true, value: text };
    tell(`Reading it: ${megabytes(from)} of ${megabytes(file.size)}.`);
    const sent = await connection.call('evenings.importPart', { file: name, at: size, text });
    if (!sent.ok) return sent;
    size = sent.value.size;
  }
  return null;
}

/** @returns the card of the evening that was brought in; null where it was given up */
export async function bringInFile(
  connection: Connection,
  file: File,
  follower: Follower,
): Promise<Answer<EveningCard> | null> {
  const { tell, signal } = follower;
  // Another for each try, so that nothing of an earlier one is in it.
  const name = crypto.randomUUID();
  const isWhole = file.size <= PART_BYTES;
  const giveUp = () => {
    if (!isWhole) void connection.call('evenings.giveUp', { id: name });
  };
  signal.addEventListener('abort', giveUp);
  const end = connection.on('evenings.progress', ({ id, entries, of, written }) => {
    const doing = written === true ? 'Writing it into the log' : 'Going through it';
    if (id === name) tell(`${doing}: ${count(entries)} of ${count(of)} entries.`);
  });
  try {
    const last = await sendParts(connection, name, file, follower);
    if (last === null || !last.ok) return last;
    const request = isWhole ? { text: last.value } : { text: last.value, file: name };
    const answer = await connection.call('evenings.import', request);
    return signal.aborted && !answer.ok ? null : answer;
  } finally {
    signal.removeEventListener('abort', giveUp);
    end();
  }
}
