/** The calls about evenings that were: reading them back, labelling, removing, and carrying them from one installation to another. */
import { type Bad, bad, good } from './answers.ts';
import { takeOutWhole } from './arrivals.ts';
import { type carryingCalls, exportedName, exportedPart } from './carrying/carrying-calls.ts';
import { type Clock, rfc3339 } from './clock.ts';
import { cardOf, eveningName } from './evening-card.ts';
import { eveningPasses } from './evening-passes.ts';
import { eveningReports, unsound } from './evening-reports.ts';
import { readDocument } from './log/documents.ts';
import { readEvents } from './log/events.ts';
import { entryAt, markFrom, outlineOf } from './log/moments.ts';
import {
  initialStateOf,
  type Labels,
  labelSession,
  type SessionRow,
  sessionRow,
  sessionRows,
} from './log/sessions.ts';
import { stateAt } from './log/state-at.ts';
import type { Pushes } from './pushes.ts';
import type { Storage } from './storage.ts';

interface Deps {
  readonly storage: Storage;
  readonly clock: Clock;
  readonly pushes: Pushes;
  /** The evening that is going on: it cannot be removed. */
  readonly going: () => { readonly id: string } | null;
  readonly carrying: ReturnType<typeof carryingCalls>;
}

/** An evening of so many entries is gone through before it is shown; of a longer one that is told afterwards. */
const CHECKED_AT_ONCE = 20_000;
/** Most events in one answer. */
const MOST_EVENTS = 5000;

const noSuch = (id: string): Bad => bad('not-found', `There is no evening ${id} in the log.`, '$.id');

export function findEvening(storage: Storage, id: string): SessionRow | null {
  return /^\d{1,15}$/.test(id) ? sessionRow(storage.log, Number(id)) : null;
}

export function eveningCalls({ storage, clock, pushes, going, carrying }: Deps) {
  const passes = eveningPasses(storage.log);
  /** An evening that is not what was written is not shown as if it were. */
  const unsoundness = async (row: SessionRow): Promise<Bad | null> => {
    const fault = await passes.faultOf(row);
    return fault === null ? null : unsound(row, fault);
  };
  const reports = eveningReports(storage.log, passes, pushes);
  /** Does something with an evening of the log. */
  const withRow = <Value>(id: string, act: (row: SessionRow) => Value): Value | Bad => {
    const row = findEvening(storage, id);
    return row === null ? noSuch(id) : act(row);
  };

  return {
    'evenings.list': () => good(sessionRows(storage.log).map(cardOf)),

    'evenings.read': ({ id }: { id: string }) =>
      withRow(id, async (row) => {
        const isLong = row.entries > CHECKED_AT_ONCE;
        const unsound = isLong ? null : await unsoundness(row);
        if (unsound !== null) return unsound;
        return good({
          card: cardOf(row),
          document: readDocument(storage.log, row.railroadHash),
          initial: initialStateOf(storage.log, row.id),
          checked: passes.isSound(row),
        });
      }),

    'evenings.check': ({ id }: { id: string }) =>
      withRow(id, async (row) => (await unsoundness(row)) ?? good({})),

    'evenings.outline': ({ id, bins }: { id: string; bins: number }) =>
      withRow(id, (row) => good(outlineOf(storage.log, row.id, row.entries, bins))),

    'evenings.entryAt': ({ id, at }: { id: string; at: number }) =>
      withRow(id, (row) => good({ entry: entryAt(storage.log, row.id, row.entries, at) })),

    'evenings.markFrom': ({
      id,
      entry,
      direction,
    }: {
      id: string;
      entry: number;
      direction: 'next' | 'before';
    }) => withRow(id, (row) => good({ entry: markFrom(storage.log, row.id, entry, direction) })),

    'evenings.report': ({ id }: { id: string }) => withRow(id, reports.report),

    'evenings.giveUp': ({ id }: { id: string }) => {
      if (carrying.giveUp(id)) return good({});
      return withRow(id, (row) => {
        reports.giveUp(row);
        return good({});
      });
    },

    'evenings.charts': ({ id, from, to }: { id: string; from: number; to: number }) =>
      withRow(id, (row) => reports.charts(row, { from, to })),

    'evenings.events': ({ id, from, to }: { id: string; from: number; to: number }) => {
      const row = findEvening(storage, id);
      if (row === null) return noSuch(id);
      return good([...readEvents(storage.log, row.id, from, Math.min(to, from + MOST_EVENTS - 1))]);
    },

    'evenings.stateAt': ({ id, entry }: { id: string; entry: number }) => {
      const row = findEvening(storage, id);
      if (row === null) return noSuch(id);
      if (entry > row.entries)
        return bad('not-found', `Evening ${id} has ${row.entries} entries, not ${entry}.`, '$.entry');
      return good({ state: stateAt(storage.log, row.id, entry), entry });
    },

    'evenings.update': ({ id, ...labels }: { id: string } & Omit<Labels, 'endedAt'>) => {
      const row = findEvening(storage, id);
      if (row === null) return noSuch(id);
      const written = storage.write((log) => labelSession(log, row.id, labels));
      if (written.ok) pushes.tell('evenings.changed', {});
      return written.ok ? good(cardOf(sessionRow(storage.log, row.id) ?? row)) : written;
    },

    'evenings.remove': async ({ id, confirm }: { id: string; confirm: string }) => {
      const row = findEvening(storage, id);
      if (row === null) return noSuch(id);
      if (going()?.id === id) return bad('refused', 'This evening is going on; end it first.');
      if (confirm !== eveningName(row))
        return bad(
          'refused',
          `To remove it for good, its name has to be given: ${eveningName(row)}`,
          '$.confirm',
        );
      const hidden = () => pushes.tell('evenings.changed', {});
      return (await takeOutWhole(storage, row.id, rfc3339(clock), hidden)) ?? good({});
    },

    'evenings.export': ({ id, after }: { id: string; after: number }) =>
      withRow(id, async (row) => {
        const part = exportedPart(storage, row, after);
        const unsound = part.ok && after === 0 ? await unsoundness(row) : null;
        if (unsound !== null) return unsound;
        return part.ok ? good({ name: exportedName(row), ...part.value }) : part;
      }),

    ...carrying.calls,
  };
}
