/** The next act in few words: "K4 → 2", "No. 12 → Quarry", "Clear of 5?". */
import { spokenBlock, spokenDestination } from '../../shared-model/session/say.ts';
import type { Throw } from '../../shared-model/session/state.ts';
import type { PlannedOrder } from '../carrying/carried-plan.ts';
import { Arrow } from '../parts/arrow.tsx';
import type { DeskSource } from './desk-source.ts';
import type { NextAct } from './next-act.ts';
import type { Onward } from './onward.ts';

/** A position as it stands on the dial or the lever. */
const position = ({ to }: Throw): string => (typeof to === 'boolean' ? (to ? 'on' : 'off') : to);

export function ThrowWords({ thrown }: { readonly thrown: Throw }) {
  return (
    <>
      {thrown.id}&nbsp;
      <Arrow />
      &nbsp;{position(thrown)}
    </>
  );
}

/** "No. 12 → 4" of a way on. */
export function OnwardWords({ source, onward }: { readonly source: DeskSource; readonly onward: Onward }) {
  return (
    <>
      {source.state.trains[onward.train]?.name ?? onward.train}&nbsp;
      <Arrow />
      &nbsp;{spokenDestination(source.railroad, onward.request.to)}
    </>
  );
}

/** "No. 24 → 3" of an order of the plan. */
export function PlannedWords({
  source,
  planned: { order },
}: {
  readonly source: DeskSource;
  readonly planned: PlannedOrder;
}) {
  return (
    <>
      {source.state.trains[order.train]?.name ?? order.train}&nbsp;
      <Arrow />
      &nbsp;{spokenDestination(source.railroad, order.input.to)}
    </>
  );
}

export function NextWords({ source, next }: { readonly source: DeskSource; readonly next: NextAct }) {
  const { railroad, state } = source;
  switch (next.kind) {
    case 'throw':
      return <ThrowWords thrown={next.pending.thrown} />;
    case 'ask':
      return (
        <>
          {state.trains[next.ask.train]?.name ?? next.ask.train}&nbsp;
          <Arrow />
          &nbsp;{spokenDestination(railroad, next.ask.to)}
        </>
      );
    case 'planned':
      return <PlannedWords source={source} planned={next.planned} />;
    case 'onward':
      return <OnwardWords source={source} onward={next.onward} />;
    case 'clear':
      return <>Clear of {spokenBlock(railroad, next.block)}?</>;
    case 'nothing':
      return null;
  }
}
