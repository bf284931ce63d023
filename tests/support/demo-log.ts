/** A log with the demo evening in it, as `cabward demo` records it. */
import { openStorage } from '../../electron/host/open-storage.ts';
import { recordEvening } from '../../electron/host/record-evening.ts';
import { demoEvening } from '../../shared-model/demo/evening.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { OPENED_AT } from './small-log.ts';

/** What is said in it: worked out once, since it is judged as it goes. */
export const DEMO_INPUTS = demoEvening();

/** Records the demo evening into a log; its number there is 1. */
export function recordDemo(file: string): void {
  const opened = openStorage(file, OPENED_AT, () => undefined);
  if (opened.kind !== 'open') throw new Error(opened.kind);
  const recorded = recordEvening(opened.opened.storage, {
    document: demoRailroad,
    inputs: DEMO_INPUTS,
    uid: 'demo-evening',
    openedAt: OPENED_AT,
    name: 'Demo evening',
  });
  opened.opened.close();
  if (!recorded.ok) throw new Error(recorded.problem.says);
}
