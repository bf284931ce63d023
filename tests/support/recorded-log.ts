/** A log with the design's example evening in it, as `cabward demo` records one. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { openStorage } from '../../electron/host/open-storage.ts';
import { recordEvening } from '../../electron/host/record-evening.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { parseScript } from '../../shared-model/session/script.ts';
import { passingSidingExample } from './example.ts';
import { supportFile } from './run-cabward.ts';
import { OPENED_AT } from './small-log.ts';
import { temporaryFolder } from './temporary-folder.ts';

/** Path of a closed log with the example evening in it, so many times. */
export function recordedLog(evenings = 1): string {
  const script = parseScript(
    indexRailroad(passingSidingExample),
    readFileSync(supportFile('meet.script.jsonl'), 'utf8'),
  );
  if (!script.ok) throw new Error(script.says);
  const file = join(temporaryFolder(), 'evenings.cabward');
  const opened = openStorage(file, OPENED_AT, () => undefined);
  if (opened.kind !== 'open') throw new Error(opened.kind);
  for (let evening = 1; evening <= evenings; evening += 1) {
    const recorded = recordEvening(opened.opened.storage, {
      document: passingSidingExample,
      inputs: script.inputs,
      uid: `evening-${evening}`,
      openedAt: OPENED_AT,
      name: `Meet ${evening}`,
    });
    if (!recorded.ok) throw new Error(recorded.problem.says);
  }
  opened.opened.close();
  return file;
}
