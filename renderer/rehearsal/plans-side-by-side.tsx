/** The plans that were made, side by side: what each takes, what the hands do, what the rules would refuse. One is looked at. */
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import { useConsole } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { Table } from '../parts/table.tsx';
import type { Rehearsal } from './use-rehearsal.ts';
import { lengthWords } from './words.ts';

/** Millimetres run by all trains. */
function lengthMm({ origin }: Rehearsal, edges: readonly string[]): number {
  return edges.reduce((sum, edge) => sum + (origin.railroad.edges.get(edge as never)?.length ?? 0), 0);
}

export function PlansSideBySide({ rehearsal }: { readonly rehearsal: Rehearsal }) {
  const { plans, chosen, choose, seeing } = rehearsal;
  const lengths = useConsole((state) => state.settings.lengths);
  const rows = plans.flatMap((plan) => {
    const seen = seeing(plan);
    return seen === null ? [] : [{ plan, seen }];
  });
  return (
    <Table
      caption="Plans side by side"
      captionHidden
      columns={[
        { name: 'plan' },
        { name: 'arrivals together', figures: true },
        { name: 'at least', figures: true },
        { name: 'last one there', figures: true },
        { name: 'run', figures: true },
        { name: 'moves', figures: true },
        { name: 'throws', figures: true },
        { name: 'hands', figures: true },
        { name: 'conflicts', figures: true },
        { name: 'refused by the rules', figures: true },
      ]}
      rows={rows.map(({ plan, seen }, index) => {
        const { answer } = plan;
        return {
          key: String(index),
          cells: [
            <Act key="choose" kind="calm" pressed={index === chosen} onPress={() => choose(index)}>
              {plan.name}
            </Act>,
            clockText(answer.total ?? 0),
            answer.proven ? 'proven' : clockText(answer.lowerBound ?? 0),
            clockText(seen.timing.end),
            lengthWords(
              lengthMm(
                rehearsal,
                answer.moves.flatMap(({ edges }) => edges),
              ),
              lengths,
            ),
            answer.moves.length,
            answer.throws.length,
            `${Math.round(seen.timing.handsShare * 100)} %, ${seen.timing.handsPeak} a minute`,
            seen.faults.length,
            seen.played.refused.length,
          ],
        };
      })}
    />
  );
}
