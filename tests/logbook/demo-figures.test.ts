/** The figures of the demo evening against an independent pass over the raw rows, and its replay against what was live. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { canonicalJson } from '../../electron/host/log/chain.ts';
import { readEvents } from '../../electron/host/log/events.ts';
import type { ReadableLog } from '../../electron/host/log/log.ts';
import { initialStateOf } from '../../electron/host/log/sessions.ts';
import { stateAt } from '../../electron/host/log/state-at.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { eveningFigures } from '../../shared-model/logbook/figures.ts';
import { replayOf, stateAfter } from '../../shared-model/logbook/replay.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { DEMO_INPUTS, recordDemo } from '../support/demo-log.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectAsInRows } from './as-in-rows.ts';
import { figuresFromRows } from './by-raw-rows.ts';

const railroad = indexRailroad(demoRailroad);

function demoLog() {
  const file = join(temporaryFolder(), 'evenings.cabward');
  recordDemo(file);
  return file;
}

/** Opens a log to look at it, and closes it again. */
function looked<Value>(file: string, at: (log: ReadableLog) => Value): Value {
  const log = new Sqlite(file, { readonly: true });
  try {
    return at(log as ReadableLog);
  } finally {
    log.close();
  }
}

test('the figures of the demo evening are those that an independent pass over the raw rows gives', () => {
  const file = demoLog();
  const raw = figuresFromRows(file, 1);
  const { initial, events } = looked(file, (log) => ({
    initial: initialStateOf(log, 1),
    events: readEvents(log, 1, 1, 100_000),
  }));
  const figures = eveningFigures(railroad, initial, events);
  expectAsInRows(figures, raw);
  expect(figures.waits.length).toBeGreaterThan(0);
});

test('replay at every entry is the state that was live then, by its hash', () => {
  const hashOf = (state: SessionState) => createHash('sha256').update(canonicalJson(state)).digest('hex');
  const live: string[] = [];
  let evening = newEvening(railroad);
  for (const input of DEMO_INPUTS) {
    evening = take(evening, input).evening;
    live.push(hashOf(evening.state));
  }
  looked(demoLog(), (log) => {
    const replayed: string[] = [];
    // As the screen reads it: pieces of 500 entries, each from the state where it begins.
    for (let start = 0; start < live.length; start += 500) {
      const replay = replayOf(stateAt(log, 1, start), readEvents(log, 1, start + 1, start + 500));
      for (let at = 1; at <= replay.events.length; at += 1) replayed.push(hashOf(stateAfter(replay, at)));
    }
    expect(replayed).toEqual(live);
  });
});
