/** Why: the last refusal, what a train waits for, whose a block is, or what is next. */
import type { BlockId, TrainId } from '../../shared-model/ids.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { called } from '../../shared-model/session/rules/sentences.ts';
import { spokenBlock } from '../../shared-model/session/say.ts';
import type { LineContext } from './entry-line/reading.ts';
import { nextAct, pendingThrows } from './next-act.ts';
import { heldBy, plannedWhy, planWaits } from './plan-next.ts';

export type Explained =
  | { readonly kind: 'refused'; readonly event: SessionEvent }
  | { readonly kind: 'told'; readonly says: string };

const told = (says: string): Explained => ({ kind: 'told', says });

function ofBlock({ railroad, state }: LineContext, block: BlockId): Explained {
  const now = state.blocks[block];
  const mark = spokenBlock(railroad, block);
  const whose = [now?.train, now?.cab]
    .filter((id) => id !== null && id !== undefined)
    .map((id) => called({ railroad, state }, id))
    .join(', ');
  return told(`${mark} is ${now?.state ?? 'open'}${whose === '' ? '' : `: ${whose}`}.`);
}

function ofTrain(context: LineContext, train: TrainId): Explained {
  const { state, recent } = context;
  const ask = state.asks.find((one) => one.train === train);
  const refused = recent.findLast(
    ({ input, outcome }) => outcome === 'refused' && 'train' in input && input.train === train,
  );
  const name = state.trains[train]?.name ?? train;
  if (ask !== undefined)
    return told(
      `${name}: ${ask.free ? 'its ask is free now.' : ask.reasons.map(({ says }) => says).join(' ')}`,
    );
  const held = heldBy(context, train);
  if (held !== '') return told(`${name}: its turn in ${context.plan?.name ?? 'the plan'} is not ${held}.`);
  return refused === undefined
    ? told(`Nothing was refused to ${name}.`)
    : { kind: 'refused', event: refused };
}

/** The word on the next act: what it is for. */
function ofNext(context: LineContext): Explained {
  const pending = pendingThrows(context, []);
  const next = nextAct(context, pending, []);
  const waiting = pending[0];
  const { plan } = context;
  switch (next.kind) {
    case 'throw': {
      const { train, thrown } = next.pending;
      return told(
        `${called(context, String(thrown.id))} is for ${train === null ? 'nobody' : called(context, train)}.`,
      );
    }
    case 'ask':
      return told(`${called(context, next.ask.train)} asked for it, and it is free now.`);
    case 'clear':
      return told(
        `${called(context, next.waiting)} waits for ${spokenBlock(context.railroad, next.block)}, which ${called(context, next.train)} may have left.`,
      );
    case 'onward':
      return told(`${called(context, next.onward.train)} comes to its limit, and the way on is free.`);
    case 'planned':
      if (plan != null) return told(plannedWhy(plan, next.planned));
      break;
    case 'nothing':
      break;
  }
  if (waiting === undefined && plan != null) return told(planWaits(plan));
  if (waiting === undefined) return told('Nothing was refused, and nothing is next.');
  return told(
    `${called(context, String(waiting.thrown.id))} waits for ${waiting.thrown.waitsFor.map((id) => called(context, id)).join(', ')}.`,
  );
}

/** @param about a train or a block; null for the last refusal, or else what is next */
export function explain(context: LineContext, about: string | null): Explained {
  if (about === null) {
    const refused = context.recent.findLast(({ outcome }) => outcome === 'refused');
    return refused === undefined ? ofNext(context) : { kind: 'refused', event: refused };
  }
  return context.railroad.blocks.has(about as BlockId)
    ? ofBlock(context, about as BlockId)
    : ofTrain(context, about as TrainId);
}
