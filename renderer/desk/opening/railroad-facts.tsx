/** What a railroad has, in a few figures, and what is worth doing before the crew comes. */
import { checksDue } from '../../../shared-model/power/phase-due.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { isThrown } from '../../../shared-model/railroad/travel.ts';
import { useConsole } from '../../console/use-console.tsx';
import { counted } from '../../parts/counted.ts';
import { aged } from '../../power-room/dated-check.ts';
import { useNow } from '../../power-room/use-now.ts';
import { useStandingChecks } from '../../power-room/use-standing-checks.ts';

function figures({ document }: Railroad): string {
  const { blocks, selectors, throttles, supplies, trains, nodes } = document;
  return [
    counted(blocks.length, 'block'),
    counted(selectors.length, 'selector'),
    counted(nodes.filter(isThrown).length, 'turnout'),
    `${counted(throttles.length, 'cab')} on ${supplies.length} ${supplies.length === 1 ? 'supply' : 'supplies'}`,
    counted(trains.length, 'train'),
  ].join(', ');
}

/** The phase checks that are due, as one sentence; none until it is known. */
function phaseWords(due: number | null): string {
  if (due === null) return '';
  if (due === 0) return 'The supplies that meet at a gap are known in phase, or known not to be.';
  return due === 1
    ? 'One pair of supplies that meet at a gap is not checked for tonight.'
    : `${due} pairs of supplies that meet at a gap are not checked for tonight.`;
}

interface RailroadFactsProps {
  readonly id: string;
  readonly railroad: Railroad;
}

export function RailroadFacts({ id, railroad }: RailroadFactsProps) {
  const { checks } = useStandingChecks(id);
  const minutes = useConsole(({ settings }) => settings.phaseOldAfterMinutes);
  const now = useNow();
  const due = checks === null ? null : checksDue(railroad, aged(checks, now), minutes * 60).length;
  return (
    <div className="opening-facts">
      <p>{figures(railroad)}.</p>
      <p>
        {phaseWords(due)} <a href="#/power-room">Power room</a>
      </p>
      <p>
        Before the crew comes: <a href="#/rehearsal">rehearse</a> a move, <a href="#/logbook">look back</a> at
        an evening, <a href="#/drawing-board">draw</a> your own railroad, or read{' '}
        <a href="#/help">how a first evening goes</a>.
      </p>
    </div>
  );
}
