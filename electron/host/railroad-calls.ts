/** The calls about railroads: a library whose published versions never change, and drafts that may be broken and are never run. */
import { firstMalformed } from '../../shared-model/malformed.ts';
import { brokenReferences } from '../../shared-model/railroad/broken-references.ts';
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';
import { parseRailroadText } from '../../shared-model/railroad/parse-railroad.ts';
import { whyNotRunnable } from '../../shared-model/railroad/runnable.ts';
import type { RailroadCard, ReplyOf } from '../../shared-model/wire/contract.ts';
import { type Bad, bad, type Good, good } from './answers.ts';
import { type Clock, rfc3339 } from './clock.ts';
import { readDocument } from './log/documents.ts';
import {
  addRailroad,
  addVersion,
  dropDraft,
  type RailroadRow,
  railroadRow,
  railroadRows,
  readDraft,
  removeRailroad,
  versionRows,
  writeDraft,
} from './log/library.ts';
import type { Pushes } from './pushes.ts';
import type { Storage } from './storage.ts';

interface Deps {
  readonly storage: Storage;
  readonly clock: Clock;
  readonly pushes: Pushes;
}

const cardOf = (row: RailroadRow): RailroadCard => ({ ...row, id: String(row.id) });

const noSuch = (id: string): Bad => bad('not-found', `There is no railroad ${id} in the library.`, '$.id');

/** The railroad with an id of the library. */
export function findRailroad(storage: Storage, id: string): RailroadRow | null {
  return /^\d{1,15}$/.test(id) ? railroadRow(storage.log, Number(id)) : null;
}

/** The railroad as it is being drawn, once that is whole, else as it was published last; null while it is neither. */
export function wholeDocument({ log }: Pick<Storage, 'log'>, row: RailroadRow): RailroadDocument | null {
  const draft = railroadDocument.safeParse(readDraft(log, row.id));
  if (draft.success && brokenReferences(draft.data).length === 0) return draft.data;
  return row.hash === null ? null : readDocument(log, row.hash);
}

/** Why a draft cannot be published: where it does not parse, or what keeps it from being run. */
function publishable(draft: unknown): Good<RailroadDocument> | Bad {
  const parsed = railroadDocument.safeParse(draft);
  if (!parsed.success) {
    const { path, says } = firstMalformed(parsed.error);
    return bad('refused', `The draft is not whole yet: ${path}: ${says}.`, path);
  }
  const error = whyNotRunnable(parsed.data);
  return error === null ? good(parsed.data) : bad('refused', `The draft cannot be run yet: ${error.says}`);
}

export function railroadCalls({ storage, clock, pushes }: Deps) {
  /** Writes, tells the screens, and answers with the railroad's new card. */
  const changed = (written: Good<number> | Bad): Good<RailroadCard> | Bad => {
    if (!written.ok) return written;
    pushes.tell('railroads.changed', {});
    const row = railroadRow(storage.log, written.value);
    return row === null ? noSuch(String(written.value)) : good(cardOf(row));
  };

  return {
    'railroads.list': () => good(railroadRows(storage.log).map(cardOf)),

    'railroads.read': ({
      id,
      version,
    }: {
      id: string;
      version?: number | undefined;
    }): Good<ReplyOf<'railroads.read'>> | Bad => {
      const row = findRailroad(storage, id);
      if (row === null) return noSuch(id);
      const wanted = version ?? 0;
      const draft = wanted === 0 ? readDraft(storage.log, row.id) : undefined;
      if (draft !== undefined) return good({ id, document: draft, version: row.version, isDraft: true });
      const versions = versionRows(storage.log, row.id);
      const found = wanted === 0 ? versions[0] : versions.find((one) => one.version === wanted);
      if (found === undefined)
        return bad('not-found', `Railroad ${id} has no version ${wanted}.`, '$.version');
      return good({
        id,
        document: readDocument(storage.log, found.hash),
        version: found.version,
        isDraft: false,
      });
    },

    'railroads.versions': ({ id }: { id: string }) => {
      const row = findRailroad(storage, id);
      return row === null ? noSuch(id) : good([...versionRows(storage.log, row.id)]);
    },

    'railroads.saveDraft': ({
      id,
      name,
      document,
    }: {
      id: string | null;
      name: string;
      document: unknown;
    }) => {
      const row = id === null ? null : findRailroad(storage, id);
      if (id !== null && row === null) return noSuch(id);
      if (document === undefined)
        return bad('bad-input', 'expected a document, but it is missing', '$.document');
      const at = rfc3339(clock);
      return changed(
        storage.write((log) => {
          const railroad = row?.id ?? addRailroad(log, name, false, at);
          writeDraft(log, railroad, name, document, at);
          return railroad;
        }),
      );
    },

    'railroads.publish': ({ id, note }: { id: string; note: string }) => {
      const row = findRailroad(storage, id);
      if (row === null) return noSuch(id);
      const draft = readDraft(storage.log, row.id);
      if (draft === undefined) return bad('refused', `Railroad ${id} has no draft to publish.`);
      const document = publishable(draft);
      if (!document.ok) return document;
      return changed(
        storage.write((log) => {
          addVersion(log, row.id, document.value, note, rfc3339(clock));
          return row.id;
        }),
      );
    },

    'railroads.discardDraft': ({ id }: { id: string }) => {
      const row = findRailroad(storage, id);
      if (row === null) return noSuch(id);
      if (row.version === 0)
        return bad('refused', 'This railroad is only a draft; remove the railroad to be rid of it.');
      return changed(
        storage.write((log) => {
          dropDraft(log, row.id);
          return row.id;
        }),
      );
    },

    'railroads.import': ({ text, name }: { text: string; name: string }) => {
      const parsed = parseRailroadText(text);
      if (!parsed.ok) return bad('bad-input', `${name}: ${parsed.path}: ${parsed.says}`, parsed.path);
      const { document } = parsed;
      const at = rfc3339(clock);
      // One that cannot be run comes in as a draft, so that it can be mended on the drawing board.
      const runnable = whyNotRunnable(document) === null;
      return changed(
        storage.write((log) => {
          const railroad = addRailroad(log, document.name, false, at);
          if (runnable) addVersion(log, railroad, document, `imported from ${name}`, at);
          else writeDraft(log, railroad, document.name, document, at);
          return railroad;
        }),
      );
    },

    'railroads.remove': ({ id }: { id: string }): Good<Record<string, never>> | Bad => {
      const row = findRailroad(storage, id);
      if (row === null) return noSuch(id);
      const written = storage.write((log) => removeRailroad(log, row.id));
      if (!written.ok) return written;
      pushes.tell('railroads.changed', {});
      return good({});
    },
  };
}
