/** The calls that carry an evening from one installation to another: saved part by part, brought in part by part, adopted whole or not at all. */

import type { LookAhead } from '../../../shared-model/session/world.ts';
import type { EveningCard } from '../../../shared-model/wire/evening-calls.ts';
import { type Bad, bad, type Good, good } from '../answers.ts';
import { bringInWhole } from '../arrivals.ts';
import { GIVEN_UP, whileWanted } from '../by-turns.ts';
import { type Clock, rfc3339 } from '../clock.ts';
import { cardOf, eveningName } from '../evening-card.ts';
import { type Arrival, knowsEvening } from '../log/partial.ts';
import { type SessionRow, sessionRow } from '../log/sessions.ts';
import type { Pushes } from '../pushes.ts';
import type { Storage } from '../storage.ts';
import { MOST_ENTRIES } from './evening-file.ts';
import { bytesOfText, type FileBytes, type Spool, spool } from './file-bytes.ts';
import { type EveningFromFile, type Judged, readEveningFile } from './read-evening-file.ts';
import { eveningFilePart, type FilePart } from './write-evening-file.ts';

interface Deps {
  readonly storage: Storage;
  readonly clock: Clock;
  readonly pushes: Pushes;
  readonly lookAhead: LookAhead | undefined;
}

/** Files that come in at a time; of more, the one that began first is given up. */
const MOST_INCOMING = 2;
/** More bytes are no evening file of at most `MOST_ENTRIES` entries, and would only fill the disk. */
const MOST_BYTES = 2_000_000_000;

/** So many entries judged or written are worth telling. */
const TOLD_EVERY = 500;

const GAVE_UP = bad('refused', 'This was given up.');
const IN_ALREADY = bad('refused', 'This evening is in the log already.');
const NO_SUCH_FILE = bad('refused', 'This file is no longer being brought in. Begin again.', '$.file');

/** A part of an evening as a file; the first is the whole of a short one. */
export function exportedPart(storage: Storage, row: SessionRow, after: number): Good<FilePart> | Bad {
  if (row.entries > MOST_ENTRIES)
    return bad(
      'refused',
      `This evening has ${row.entries.toLocaleString('en')} entries; at most ${MOST_ENTRIES.toLocaleString('en')} can be carried as a file. A backup of the log has it.`,
    );
  return good(eveningFilePart(storage.log, row, after));
}

export const exportedName = (row: SessionRow): string =>
  `${eveningName(row).replace(/[^\p{L}\p{N}]+/gu, '-')}.evening.json`;

/** An evening from a file as it comes into the log; one that was not ended is ended by it. */
function arrivalOf(file: EveningFromFile, at: string): Arrival {
  const { header, document, head, count, events, name, note, endedAt } = file;
  return { header, document, head, count, events, labels: { name, note, endedAt: endedAt ?? at } };
}

export function carryingCalls({ storage, clock, pushes, lookAhead }: Deps) {
  const incoming = new Map<string, Spool>();
  const drop = (file: string): boolean => {
    incoming.get(file)?.drop();
    return incoming.delete(file);
  };

  const bringIn = async (
    bytes: FileBytes,
    wanted: (told: Judged & { readonly written?: true }) => boolean,
  ): Promise<Good<EveningCard> | Bad> => {
    const read = await whileWanted(readEveningFile(bytes, lookAhead), wanted);
    if (read === GIVEN_UP) return GAVE_UP;
    if (!read.ok) return bad('bad-input', read.malformed.says, read.malformed.path);
    const { value } = read;
    if (knowsEvening(storage.log, value.header.uid)) return IN_ALREADY;
    const at = rfc3339(clock);
    const brought = await bringInWhole(storage, [arrivalOf(value, at)], {
      at,
      wanted: (entries) => wanted({ entries, of: value.count, written: true }),
      also: (log, [session = 0]) => {
        const row = sessionRow(log, session);
        return row === null
          ? bad('fault', 'The evening is not there after it was adopted.')
          : good(cardOf(row));
      },
    });
    if (brought === GIVEN_UP) return GAVE_UP;
    if (brought.ok) pushes.tell('evenings.changed', {});
    return brought;
  };

  return {
    /** Gives up what came of a file so far; false where there is none. */
    giveUp: drop,
    close: () => {
      for (const file of incoming.keys()) drop(file);
    },
    calls: {
      'evenings.importPart': ({ file, at, text }: { file: string; at: number; text: string }) => {
        const known = incoming.get(file);
        if (known === undefined && at > 0) return NO_SUCH_FILE;
        const here = known ?? spool();
        incoming.set(file, here);
        if (known === undefined && incoming.size > MOST_INCOMING) drop([...incoming.keys()][0] ?? file);
        if (here.size !== at)
          return bad('refused', `expected the part of the file from byte ${here.size} on`, '$.at');
        here.add(text);
        if (here.size <= MOST_BYTES) return good({ size: here.size });
        drop(file);
        return bad(
          'refused',
          `This file has more than ${MOST_BYTES / 1e9} GB: it is no evening of at most ${MOST_ENTRIES.toLocaleString('en')} entries.`,
        );
      },
      'evenings.import': async ({
        text,
        file,
      }: {
        text: string;
        file?: string | undefined;
      }): Promise<Good<EveningCard> | Bad> => {
        if (file === undefined) return bringIn(bytesOfText(text), () => true);
        const parts = incoming.get(file);
        if (parts === undefined) return NO_SUCH_FILE;
        parts.add(text);
        try {
          return await bringIn(parts, (told) => {
            if (told.entries % TOLD_EVERY === 0) pushes.tell('evenings.progress', { id: file, ...told });
            return incoming.get(file) === parts;
          });
        } finally {
          if (incoming.get(file) === parts) drop(file);
        }
      },
    },
  };
}
