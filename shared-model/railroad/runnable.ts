/** Whether a railroad can be run at all: some errors make it impossible to say what feeds a block, or where a track leads. */
import type { Finding, FindingCode } from '../refusal.ts';
import { audit } from './audit.ts';
import type { RailroadDocument } from './document.ts';

const UNRUNNABLE: readonly FindingCode[] = ['broken-reference', 'feed-loop'];

/** The first finding that keeps a railroad from being run, live or in a rehearsal; null when it can be run. */
export function whyNotRunnable(document: RailroadDocument): Finding | null {
  return audit(document).find(({ code }) => UNRUNNABLE.includes(code)) ?? null;
}
