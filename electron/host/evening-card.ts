/** An evening as it stands in a list. */
import type { EveningCard } from '../../shared-model/wire/contract.ts';
import type { SessionRow } from './log/sessions.ts';

/** An evening without a name is called by its railroad and day. */
export function eveningName(row: SessionRow): string {
  return row.name === '' ? `${row.railroadName}, ${row.openedAt.slice(0, 10)}` : row.name;
}

export const cardOf = (row: SessionRow): EveningCard => ({
  id: String(row.id),
  uid: row.uid,
  name: eveningName(row),
  note: row.note,
  railroadName: row.railroadName,
  railroadHash: row.railroadHash,
  openedAt: row.openedAt,
  endedAt: row.endedAt,
  entries: row.entries,
  refusals: row.refusals,
  alarms: row.alarms,
  people: [...row.people],
  archived: row.archived,
  headHash: row.head,
});
