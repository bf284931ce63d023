/** Phase: what is known, what is due, which gaps are barred, and the guided check. */
import { useRef, useState } from 'react';
import type { SupplyId } from '../../shared-model/ids.ts';
import { barredGaps } from '../../shared-model/power/barred-gaps.ts';
import { checksDue, type DueReason } from '../../shared-model/power/phase-due.ts';
import { contradictions } from '../../shared-model/power/phase-groups.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { gapWords } from '../../shared-model/railroad/where-words.ts';
import { feedNow } from '../../shared-model/session/facts/feed.ts';
import { useConsole } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { aged } from './dated-check.ts';
import { GuidedCheck } from './guided-check.tsx';
import { draftFor, FIRST_DRAFT } from './guided-draft.ts';
import { PhaseMatrix } from './phase-matrix.tsx';
import { useDraft } from './use-draft.ts';
import { useNow } from './use-now.ts';
import type { Power } from './use-power.ts';
import './phase.css';

const DUE_WORDS: Readonly<Record<DueReason, string>> = {
  never: 'was never made',
  lapsed: 'lapsed: a supply was replugged',
  old: 'is old',
  'no-verdict': 'gave no verdict',
  contradiction: 'contradicts another',
};

function Due({
  power,
  railroad,
  now,
  onCheck,
}: {
  readonly power: Power;
  readonly railroad: Railroad;
  readonly now: number;
  readonly onCheck: (a: SupplyId, b: SupplyId) => void;
}) {
  const { phaseOldAfterMinutes } = useConsole((state) => state.settings);
  const due = checksDue(railroad, aged(power.checks, now), phaseOldAfterMinutes * 60);
  const name = (id: SupplyId) => railroad.supplies.get(id)?.name ?? id;
  if (due.length === 0) return <p>No check is due.</p>;
  return (
    <ul className="due">
      {due.map(({ a, b, why, gaps }) => (
        <li key={JSON.stringify([a, b])}>
          <span>
            {name(a)} with {name(b)}: the check {DUE_WORDS[why]};{' '}
            {gaps === 1 ? 'one gap waits' : `${gaps} gaps wait`} for it.
          </span>
          <Act kind="calm" label={`Check now: ${name(a)} against ${name(b)}`} onPress={() => onCheck(a, b)}>
            Check now
          </Act>
        </li>
      ))}
    </ul>
  );
}

function Contradictions({ power, railroad }: { readonly power: Power; readonly railroad: Railroad }) {
  const name = (id: SupplyId) => railroad.supplies.get(id)?.name ?? id;
  return contradictions(power.checks).map((knot) => {
    const pairs = knot.map(({ a, b }) => `${name(a)} with ${name(b)}`).join(', ');
    return (
      <p key={pairs} role="alert">
        These checks contradict each other and count for nothing: {pairs}. Make them again.
      </p>
    );
  });
}

/** Gaps that must not be crossed as the knobs stand on record. */
function Barred({ power, railroad }: { readonly power: Power; readonly railroad: Railroad }) {
  const { state } = power;
  if (state === null) return null;
  const barred = barredGaps(railroad, power.checks, (block) => feedNow({ railroad, state }, block));
  if (barred.size === 0) return <p>As the knobs stand on record, no gap is barred.</p>;
  return (
    <p>
      <strong>Must not be crossed now:</strong>{' '}
      {[...barred].map(([gap, why]) => `${gapWords(railroad, gap)} (${why})`).join(', ')}.
    </p>
  );
}

export function PhaseSection({ power, railroad }: { readonly power: Power; readonly railroad: Railroad }) {
  const { phaseOldAfterMinutes } = useConsole((state) => state.settings);
  const [draft, change] = useDraft('phase', FIRST_DRAFT);
  const now = useNow();
  const guide = useRef<HTMLElement>(null);
  const [kept, setKept] = useState<string | null>(null);
  const { supplies } = railroad.document;
  if (supplies.length < 2) return <p>This railroad has one supply: there is nothing to be in phase with.</p>;
  const check = (a: SupplyId, b: SupplyId) => {
    setKept(null);
    change(draftFor(a, b));
    guide.current?.focus();
  };
  const onKept = (says: string) => {
    setKept(says);
    change(draftFor('', ''));
    guide.current?.focus();
  };
  return (
    <div className="phase-layout">
      <div className="power-stack">
        <PhaseMatrix
          supplies={supplies}
          checks={power.checks}
          oldAfterSeconds={phaseOldAfterMinutes * 60}
          now={now}
          onCheck={check}
        />
        <Contradictions power={power} railroad={railroad} />
        <Due power={power} railroad={railroad} now={now} onCheck={check} />
        <Barred power={power} railroad={railroad} />
      </div>
      <section ref={guide} tabIndex={-1} aria-label="Guided phase check">
        <h2>Guided phase check</h2>
        {kept === null ? null : (
          <p role="status" className="kept">
            {kept}
          </p>
        )}
        <GuidedCheck power={power} draft={draft} change={change} onKept={onKept} />
      </section>
    </div>
  );
}
