/** Which supply is in phase with which, and since when. */
import type { SupplyId } from '../../shared-model/ids.ts';
import { voltsText } from '../../shared-model/power/figures.ts';
import { checkPhase } from '../../shared-model/power/phase.ts';
import { type PhaseRelation, phaseGroups } from '../../shared-model/power/phase-groups.ts';
import type { Supply } from '../../shared-model/railroad/document.ts';
import { Act } from '../parts/act.tsx';
import { Table } from '../parts/table.tsx';
import { whenText } from '../parts/when-text.ts';
import type { DatedCheck } from './dated-check.ts';

const WORDS: Readonly<Record<PhaseRelation, string>> = {
  same: '–',
  'in-phase': 'in phase',
  reversed: 'REVERSED',
  'different-legs': 'DIFFERENT LEGS',
  unknown: 'not known',
};

interface PhaseMatrixProps {
  readonly supplies: readonly Supply[];
  readonly checks: readonly DatedCheck[];
  readonly oldAfterSeconds: number;
  /** Milliseconds of the calendar. */
  readonly now: number;
  readonly onCheck: (a: SupplyId, b: SupplyId) => void;
}

/** What a cell adds to the word: the check it rests on, or why it rests on none. */
function since(
  own: DatedCheck | undefined,
  relation: PhaseRelation,
  oldAfterSeconds: number,
  now: number,
): string {
  if (own === undefined) return relation === 'unknown' ? 'never checked' : 'follows from others';
  const when = whenText(own.measuredAt, now);
  if (own.lapsed === true) return `lapsed: replugged since ${when}`;
  const { verdict, voltsAcross } = checkPhase(own);
  if (verdict !== relation)
    return `${relation === 'unknown' ? `${when}: ` : 'follows from others; '}${verdict.replace('-', ' ')}`;
  const age = (now - own.measuredAt) / 1000 > oldAfterSeconds ? ', old' : '';
  return `since ${when}${age}, ${voltsText(voltsAcross)} across`;
}

export function PhaseMatrix({ supplies, checks, oldAfterSeconds, now, onCheck }: PhaseMatrixProps) {
  const groups = phaseGroups(checks);
  const ownCheck = (a: Supply, b: Supply) =>
    checks.filter((check) => [check.a, check.b].includes(a.id) && [check.a, check.b].includes(b.id)).at(-1);
  return (
    <Table
      caption="In phase with"
      columns={[{ name: 'Supply' }, ...supplies.map(({ name }) => ({ name }))]}
      rows={supplies.map((a, row) => ({
        key: a.id,
        cells: [
          a.name,
          ...supplies.map((b, column) => {
            const relation = groups.relation(a.id, b.id);
            if (relation === 'same') return WORDS.same;
            return (
              <span key={b.id} className="phase-cell" data-relation={relation}>
                <strong>{WORDS[relation]}</strong>
                <span className="fine">{since(ownCheck(a, b), relation, oldAfterSeconds, now)}</span>
                {column > row ? (
                  <Act
                    kind="calm"
                    label={`Check ${a.name} against ${b.name}`}
                    onPress={() => onCheck(a.id, b.id)}
                  >
                    Check
                  </Act>
                ) : null}
              </span>
            );
          }),
        ],
      }))}
    />
  );
}
