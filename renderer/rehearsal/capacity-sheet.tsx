/** "How many trains?": how many can keep moving on this railroad, what stops one more, and what would help most. An estimate, and said so. */
import { capacityAnswer, plannerEnded } from '../../shared-model/wire/planner.ts';
import { Act } from '../parts/act.tsx';
import { Table } from '../parts/table.tsx';
import type { Rehearsal } from './use-rehearsal.ts';
import { blockName, named } from './words.ts';

/** Busiest blocks and helps that are shown. */
const MOST_SHOWN = 6;

function Answer({ rehearsal, answer }: { readonly rehearsal: Rehearsal; readonly answer: unknown }) {
  const { railroad } = rehearsal.origin;
  const ended = plannerEnded.safeParse(answer);
  if (ended.success)
    return (
      <p role="status">
        {'fault' in ended.data
          ? `It could not be worked out: ${ended.data.fault}`
          : 'Stopped: nothing was found out yet.'}
      </p>
    );
  const parsed = capacityAnswer.safeParse(answer);
  if (!parsed.success) return <p role="status">The host answered with something unknown.</p>;
  const { trains, bounds, round, helps } = parsed.data;
  const busiest = [...(round?.occupancy ?? [])].sort((one, other) => other.share - one.share);
  return (
    <>
      <p role="status">
        <strong className="rehearsal-verdict">
          {trains === 1 ? '1 train' : `${trains} trains`} can keep moving
        </strong>{' '}
        on this railroad.
      </p>
      <Table
        caption="What holds the number down, the nearest first"
        columns={[{ name: 'by' }, { name: 'trains', figures: true }, { name: 'why' }, { name: 'shown' }]}
        rows={bounds.map((bound) => ({
          key: bound.limit,
          cells: [
            bound.limit,
            bound.trains,
            named(railroad, bound.says),
            bound.proven ? 'proven' : 'as far as was tried',
          ],
        }))}
      />
      {busiest.length === 0 ? null : (
        <Table
          caption="The busiest blocks of a round pressed together, as in UIC Code 406 (an estimate)"
          columns={[{ name: 'block' }, { name: 'taken', figures: true }]}
          rows={busiest.slice(0, MOST_SHOWN).map(({ block, share }) => ({
            key: block,
            cells: [blockName(railroad, block), `${Math.round(share * 100)} %`],
          }))}
        />
      )}
      <h2>What would help most</h2>
      {helps.length === 0 ? (
        <p>Nothing that was tried would help.</p>
      ) : (
        <ol className="rehearsal-helps">
          {helps.slice(0, MOST_SHOWN).map((help) => (
            <li key={`${help.kind} ${help.block}`}>{named(railroad, help.says)}</li>
          ))}
        </ol>
      )}
    </>
  );
}

export function CapacitySheet({ rehearsal }: { readonly rehearsal: Rehearsal }) {
  const { askCapacity } = rehearsal;
  const { state } = rehearsal.capacity;
  return (
    <section className="rehearsal-ways" aria-label="How many trains">
      <p>
        How many trains can keep moving here, whatever stands on it now, and which next selector, gap or
        siding would help most.
      </p>
      <Act
        kind="calm"
        onPress={askCapacity}
        notNow={state.is === 'working' ? 'It is being worked out.' : undefined}
      >
        How many trains?
      </Act>
      {state.is === 'wrong' ? <p role="alert">{state.says}</p> : null}
      {state.is === 'answered' ? <Answer rehearsal={rehearsal} answer={state.answer} /> : null}
    </section>
  );
}
