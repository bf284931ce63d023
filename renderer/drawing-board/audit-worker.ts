/** The thread that judges drafts (see `audit-thread.ts`): a large one takes longer to judge than a frame takes to draw. */
import type { JudgeRequest } from './audit-thread.ts';
import { draftVerdict } from './draft-audit.ts';

self.onmessage = ({ data }: MessageEvent<JudgeRequest>) =>
  self.postMessage(draftVerdict(data.draft, data.checks));
