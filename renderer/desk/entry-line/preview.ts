/** What Enter would do, said before it is pressed: the batch is tried on the state here, and nothing of it is kept. */
import type { BatchItem } from '../../../shared-model/session/batch.ts';
import { problemWith, takeBatch } from '../../../shared-model/session/evening.ts';
import type { DeskSource } from '../desk-source.ts';

export interface Preview {
  readonly refused: boolean;
  readonly says: string;
}

export function preview(
  { railroad, state, seconds }: Pick<DeskSource, 'railroad' | 'state' | 'seconds'>,
  items: readonly BatchItem[],
): Preview {
  const first = items[0];
  if (first === undefined) return { refused: false, says: '' };
  const problem = problemWith(railroad, state, first.input);
  if (problem !== null) return { refused: true, says: problem };
  if (first.input.do === 'retract') return { refused: false, says: `take entry ${first.input.entry} back` };
  const tried = takeBatch(
    { railroad, state, initial: state, events: [] },
    Math.max(seconds, state.at),
    items,
  );
  if (!tried.ok)
    return {
      refused: true,
      says: `would be refused: ${tried.event.reasons.map(({ says }) => says).join(' ')}`,
    };
  const events = tried.events;
  const refused = events.find(({ outcome }) => outcome === 'refused');
  if (refused !== undefined)
    return {
      refused: true,
      says: `would be refused, and reported as it stands: ${refused.reasons.map(({ says }) => says).join(' ')}`,
    };
  const grant = events.find(({ throws }) => throws !== undefined);
  const authority =
    grant?.authority === undefined ? undefined : tried.evening.state.authorities[grant.authority];
  if (grant !== undefined && authority !== undefined) {
    const knobs = grant.throws?.length ?? 0;
    return { refused: false, says: `${authority.blocks.length} blocks, ${knobs} throws, free` };
  }
  const alarms = events.flatMap(({ reasons }) => reasons.map(({ says }) => says));
  return {
    refused: false,
    says: alarms.length > 0 ? `alarm: ${alarms.join(' ')}` : first.input.do.replaceAll('-', ' '),
  };
}
