/** An evening of the log, read whole: its card, its railroad, and its events page by page. */
import { useEffect, useState } from 'react';
import { type Replay, replayOf } from '../../shared-model/logbook/replay.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { Answer, Connection, EveningCard } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';

/** As many as the contract allows in one call. */
const PAGE = 5000;

export interface EveningRecord {
  readonly card: EveningCard;
  readonly railroad: Railroad;
  readonly replay: Replay;
}

export type Reading =
  | { readonly is: 'reading'; readonly read: number; readonly of: number | null }
  | { readonly is: 'failed'; readonly says: string }
  | { readonly is: 'read'; readonly record: EveningRecord };

/** Reads an evening page by page; `tell` answers false to give up, and then there is no answer. */
export async function readRecord(
  connection: Connection,
  id: string,
  tell: (read: number, of: number) => boolean,
): Promise<Answer<EveningRecord> | null> {
  const head = await connection.call('evenings.read', { id });
  if (!head.ok) return head;
  const { card, document, initial } = head.value;
  const events: SessionEvent[] = [];
  while (events.length < card.entries) {
    if (!tell(events.length, card.entries)) return null;
    const from = events.length + 1;
    const page = await connection.call('evenings.events', {
      id,
      from,
      to: Math.min(from + PAGE - 1, card.entries),
    });
    if (!page.ok) return page;
    if (page.value.length === 0)
      return {
        ok: false,
        problem: { kind: 'fault', says: `The log gives no entry ${from} of this evening.` },
      };
    events.push(...page.value);
  }
  return {
    ok: true,
    value: { card, railroad: indexRailroad(document), replay: replayOf(initial, events) },
  };
}

/** Reads an evening; leaving it gives the reading up. */
export function useRecord(id: string): Reading {
  const { connection } = useConsoleStore();
  const [reading, setReading] = useState<Reading>({ is: 'reading', read: 0, of: null });
  useEffect(() => {
    let wanted = true;
    setReading({ is: 'reading', read: 0, of: null });
    void readRecord(connection, id, (read, of) => {
      if (wanted) setReading({ is: 'reading', read, of });
      return wanted;
    }).then((answer) => {
      if (!wanted || answer === null) return;
      if (answer.ok) setReading({ is: 'read', record: answer.value });
      else setReading({ is: 'failed', says: answer.problem.says });
    });
    return () => {
      wanted = false;
    };
  }, [connection, id]);
  return reading;
}
