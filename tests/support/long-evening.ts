/** An evening that is longer than one part of its file, and its file carried from host to host. */
import { join } from 'node:path';
import { openStorage } from '../../electron/host/open-storage.ts';
import { recordEvening } from '../../electron/host/record-evening.ts';
import type { TimedInput } from '../../shared-model/session/input.ts';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import { passingSidingExample } from './example.ts';
import { answered, type HostUnderTest } from './host-suite.ts';
import { OPENED_AT } from './small-log.ts';
import { temporaryFolder } from './temporary-folder.ts';

/** A log with an evening of 4800 long notes, one of which was taken back: 5 MB, more than one part. */
export function logOfLongEvening(): string {
  const notes = Array.from({ length: 4800 }, (_, index): TimedInput => {
    const text = `${index} ${'– a word more “and” another –'.repeat(26)}`;
    return { at: index + 1, input: { do: 'note', text } };
  });
  const inputs: readonly TimedInput[] = [
    { at: 0, input: { do: 'open-session' } },
    ...notes,
    { at: 4900, input: { do: 'retract', entry: 2 as never, why: 'said twice' } },
    { at: 5000, input: { do: 'end-session' } },
  ];
  const log = join(temporaryFolder(), 'evenings.cabward');
  const opened = openStorage(log, OPENED_AT, () => undefined);
  if (opened.kind !== 'open') throw new Error(opened.kind);
  const { storage, close } = opened.opened;
  const evening = { document: passingSidingExample, inputs, uid: 'long', openedAt: OPENED_AT, name: 'Long' };
  const recorded = recordEvening(storage, evening);
  close();
  if (!recorded.ok) throw new Error(recorded.problem.says);
  return log;
}

/** The parts of an evening's file. */
export async function exported(host: HostUnderTest, id: string): Promise<readonly string[]> {
  const texts: string[] = [];
  for (let after: number | null = 0; after !== null; ) {
    const part: ReplyOf<'evenings.export'> = await answered(host.call('evenings.export', { id, after }));
    texts.push(part.text);
    after = part.next;
  }
  return texts;
}

/** Sends a file in parts of so many characters; the last goes with the import. */
export async function broughtIn(host: HostUnderTest, text: string, characters: number, file = 'f') {
  let at = 0;
  let from = 0;
  for (; from + characters < text.length; from += characters) {
    const part = { file, at, text: text.slice(from, from + characters) };
    const sent = await answered<{ size: number }>(host.call('evenings.importPart', part));
    at = sent.size;
  }
  return host.call('evenings.import', { text: text.slice(from), file });
}
