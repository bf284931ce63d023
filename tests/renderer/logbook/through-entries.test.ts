/** A screen goes through an evening page by page, from an entry on, up to a limit; each page comes with the state before it. */
import { expect, test } from 'vitest';
import { MOST_READ, throughEntries } from '../../../renderer/logbook/through-entries.ts';
import type { Connection } from '../../../shared-model/wire/contract.ts';
import { noteEvent } from '../../support/small-log.ts';

/** A host with an evening of so many notes, whose state is its number of entries and no more. */
function withNotes(entries: number): Connection {
  const answers: Readonly<Record<string, (request: { entry: number; from: number; to: number }) => unknown>> =
    {
      'evenings.stateAt': ({ entry }) => ({ state: { entries: entry, at: entry }, entry }),
      'evenings.events': ({ from, to }) =>
        Array.from({ length: Math.max(0, Math.min(to, entries) - from + 1) }, (_, index) =>
          noteEvent(from + index),
        ),
    };
  return {
    call: (name: string, request: never) =>
      Promise.resolve({ ok: true, value: answers[name]?.(request) ?? null }),
    on: () => () => undefined,
  } as unknown as Connection;
}

/** What a reader is told: how many entries were before each page, and how many are in it. */
async function told(entries: number, from: number, wanted = () => true) {
  const pages: (readonly [before: number, events: number])[] = [];
  const answer = await throughEntries(withNotes(entries), '1', from, (before, events) => {
    pages.push([before.entries, events.length]);
    return wanted();
  });
  return { pages, answer };
}

test('each page begins at the state where the one before ended, and the last says that it is all', async () => {
  expect(await told(1200, 101)).toEqual({
    pages: [
      [100, 500],
      [600, 500],
      [1100, 100],
    ],
    answer: { ok: true, value: { whole: true } },
  });
});

test('of an evening of a million entries no more than the limit is gone through, and that is said', async () => {
  const { pages, answer } = await told(1_000_000, 1);
  expect(pages.reduce((sum, [, events]) => sum + events, 0)).toBe(MOST_READ);
  expect(answer).toEqual({ ok: true, value: { whole: false } });
});

test('a reader that wants no more gets no more', async () => {
  expect(await told(1200, 1, () => false)).toEqual({ pages: [[0, 500]], answer: null });
});
