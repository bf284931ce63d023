/** Whether a railroad can be run at all: some errors make it impossible to say what feeds a block, or where a track leads. */
import type { Finding } from '../refusal.ts';
import { brokenReferences } from './broken-references.ts';
import type { RailroadDocument } from './document.ts';
import { indexRailroad } from './railroad.ts';
import { feedLoops } from './source-audit.ts';

/** The first finding that keeps a railroad from being run, live or in a rehearsal; null when it can be run. */
export function whyNotRunnable(document: RailroadDocument): Finding | null {
  return brokenReferences(document)[0] ?? feedLoops(indexRailroad(document))[0] ?? null;
}
