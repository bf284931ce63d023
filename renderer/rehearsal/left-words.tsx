/** What is said of a rehearsal that was taken up again: from when it is, whether it has a name; or why there is none, or why it is not written down. */
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { whenText } from '../parts/when-text.ts';
import { keptRehearsal } from './kept-rehearsal.ts';
import { type PresentRehearsal, savesOf } from './present-rehearsal.ts';
import { useNotWritten } from './written-down.ts';

/** "As left at 19:42, not yet kept under a name." */
function leftAt({ rehearsal, keptAs, at }: PresentRehearsal, kept: ReplyOf<'keep.list'>): string {
  const when = whenText(Date.parse(at), Date.now());
  if (keptAs === null) return `From ${when}, not yet kept under a name.`;
  const named = keptRehearsal.safeParse(kept.find(({ id }) => id === keptAs)?.value);
  const isSame = named.success && JSON.stringify(named.data) === JSON.stringify(rehearsal);
  return isSame
    ? `From ${when}, kept as “${keptAs}”.`
    : `From ${when}, changed since it was kept as “${keptAs}”.`;
}

interface LeftWordsProps {
  /** Null where it began anew. */
  readonly opened: PresentRehearsal | null;
  readonly kept: ReplyOf<'keep.list'>;
  readonly damaged: string | null;
}

export function LeftWords({ opened, kept, damaged }: LeftWordsProps) {
  const notWritten = useNotWritten(savesOf(useConsoleStore()));
  return (
    <div className="rehearsal-left">
      {opened === null ? null : <p role="status">{leftAt(opened, kept)}</p>}
      {damaged === null ? null : <p role="alert">{damaged}</p>}
      {notWritten === null ? null : <p role="alert">It is here alone, and not written down: {notWritten}</p>}
    </div>
  );
}
