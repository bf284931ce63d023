/** Every caution, and which texts were acknowledged when. */
import { cautionsAt } from '../../shared-model/power/cautions.ts';
import { Act } from '../parts/act.tsx';
import { whenText } from '../parts/when-text.ts';
import { CautionList } from './caution-list.tsx';
import { CAUTION_KIND, keptCautions } from './kept-cautions.ts';
import { useKept } from './use-kept.ts';
import { useNow } from './use-now.ts';

export function CautionsSection({ masterSwitch }: { readonly masterSwitch: string | undefined }) {
  const { kept, keep } = useKept(CAUTION_KIND);
  const now = useNow();
  const read = kept === null ? null : keptCautions(kept);
  const acknowledge = () =>
    void keep({ step: 'print', shown: cautionsAt('print', masterSwitch).map((caution) => caution.says) });
  return (
    <div className="power-stack">
      <CautionList step="print" masterSwitch={masterSwitch} />
      <div className="power-acts">
        <Act kind="calm" onPress={acknowledge}>
          I have read these
        </Act>
        <Act kind="calm" onPress={() => window.print()}>
          Print
        </Act>
      </div>
      {read === null ? null : read.length === 0 ? (
        <p className="quiet">Nobody has acknowledged a caution here yet.</p>
      ) : (
        <details>
          <summary>
            Acknowledged {whenText(Date.parse(read[0]?.at ?? ''), now)};{' '}
            {read.length === 1 ? 'once' : `${read.length} times`} in all
          </summary>
          <ul className="notes">
            {read.map(({ at, shown }) => (
              <li key={at}>
                {whenText(Date.parse(at), now)}: {shown.join(' ')}
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}
