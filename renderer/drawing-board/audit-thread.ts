/** Judges drafts beside the page, one after the other; of those that wait only the newest is judged. */
import type { PairCheck } from '../../shared-model/power/phase-groups.ts';
import type { DraftDocument } from '../../shared-model/railroad/editing/draft.ts';
import { type DraftAudit, type DraftVerdict, draftVerdict } from './draft-audit.ts';

export interface JudgeRequest {
  readonly draft: DraftDocument;
  readonly checks: readonly PairCheck[];
}

export interface AuditThread {
  readonly judge: (request: JudgeRequest) => void;
  readonly close: () => void;
}

/** @param told hears each verdict with the draft that it is about */
export function auditThread(told: (audit: DraftAudit) => void): AuditThread {
  const worker = new Worker(new URL('./audit-worker.ts', import.meta.url), { type: 'module' });
  let judged: JudgeRequest | null = null;
  let waiting: JudgeRequest | null = null;
  let isBroken = false;
  const begin = (request: JudgeRequest) => {
    judged = request;
    worker.postMessage(request);
  };
  const answered = (verdict: DraftVerdict) => {
    if (judged !== null) told({ draft: judged.draft, ...verdict });
    const next = waiting;
    [judged, waiting] = [null, null];
    if (next !== null) begin(next);
  };
  worker.onmessage = ({ data }: MessageEvent<DraftVerdict>) => answered(data);
  // A page without threads still judges, on its own time.
  worker.onerror = () => {
    isBroken = true;
    const last = waiting ?? judged;
    [judged, waiting] = [null, null];
    if (last !== null) told({ draft: last.draft, ...draftVerdict(last.draft, last.checks) });
  };
  return {
    judge(request) {
      if (isBroken) told({ draft: request.draft, ...draftVerdict(request.draft, request.checks) });
      else if (judged === null) begin(request);
      else waiting = request;
    },
    close: () => worker.terminate(),
  };
}
