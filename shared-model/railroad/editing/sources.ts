/** Operations on what feeds the blocks of a draft. A knob that feeds nothing any more goes with its last block. */
import {
  type BlockId,
  blockId,
  type EdgeId,
  type SelectorId,
  type ThrottleId,
  type ToggleId,
  toggleId,
} from '../../ids.ts';
import type { Block } from '../document.ts';
import { indexRailroad } from '../railroad.ts';
import { nextSelector } from './dials.ts';
import { type DraftDocument, freshId } from './draft.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { withNew, without, withoutKnob, withThing } from './things.ts';

/** What a block is to be fed by; a knob that is not named is a new one. */
export type SourceWish =
  | { readonly kind: 'selector'; readonly selector?: SelectorId }
  | { readonly kind: 'throttle'; readonly throttle?: ThrottleId }
  | { readonly kind: 'toggle'; readonly toggle?: ToggleId; readonly from: BlockId };

type Sourced =
  | { readonly ok: true; readonly draft: DraftDocument; readonly source: Block['source'] }
  | { readonly ok: false; readonly says: string };

/** The source that is wished for, with the knob it needs. */
function sourced(draft: DraftDocument, wish: SourceWish): Sourced {
  switch (wish.kind) {
    case 'selector': {
      if (wish.selector !== undefined) return { ok: true, draft, source: { selector: wish.selector } };
      const selector = nextSelector(draft);
      return {
        ok: true,
        draft: withNew(draft, 'selectors', selector),
        source: { selector: selector.id },
      };
    }
    case 'throttle': {
      const throttle = wish.throttle ?? draft.throttles[0]?.id;
      return throttle === undefined
        ? { ok: false, says: 'there is no throttle yet: enter one first' }
        : { ok: true, draft, source: { throttle } };
    }
    case 'toggle': {
      if (wish.toggle !== undefined)
        return { ok: true, draft, source: { toggle: wish.toggle, from: wish.from } };
      const id = toggleId.parse(freshId(draft, 'H'));
      return {
        ok: true,
        draft: withNew(draft, 'toggles', { id, name: `Hold ${id.slice(1)}` }),
        source: { toggle: id, from: wish.from },
      };
    }
  }
}

/** The draft without the knob of a source that nothing names any more. */
function withoutIdleKnob(draft: DraftDocument, source: Block['source']): DraftDocument {
  const out =
    'selector' in source
      ? withoutKnob(draft, 'selectors', source.selector)
      : 'toggle' in source
        ? withoutKnob(draft, 'toggles', source.toggle)
        : done(draft);
  return out.ok ? out.draft : draft;
}

/** Feeds a block from something else. Refused without a throttle to wire it to, or from itself. */
export function withSource(draft: DraftDocument, id: BlockId, wish: SourceWish): Outcome {
  const block = draft.blocks.find((each) => each.id === id);
  if (block === undefined) return refused(`there is no block ${id}`);
  if (wish.kind === 'toggle' && wish.from === id) return refused('a block cannot be fed from itself');
  const next = sourced(draft, wish);
  if (!next.ok) return next;
  return done(
    withoutIdleKnob(withThing(next.draft, 'blocks', id, { source: next.source }), block.source),
    id,
  );
}

/** A block on the track of an edge, with a feeder there and a source of its own. Refused as `withSource` is. */
export function withBlockOn(draft: DraftDocument, edge: EdgeId, wish: SourceWish): Outcome {
  const next = sourced(draft, wish);
  if (!next.ok) return next;
  const id = blockId.parse(freshId(draft, 'B'));
  const block: Block = { id, name: `Block ${id.slice(1)}`, source: next.source, feeders: [{ edge }] };
  return done(withNew(next.draft, 'blocks', block), id);
}

/** The longest edge of each section that nothing feeds, in the file's order. */
export function deadEdges(draft: DraftDocument): readonly EdgeId[] {
  const railroad = indexRailroad(draft);
  const lengthOf = (edge: EdgeId) => railroad.edges.get(edge)?.length ?? 0;
  return railroad.sections
    .filter(({ blocks }) => blocks.length === 0)
    .flatMap(({ edges }) =>
      edges
        .slice(0, 1)
        .map((first) =>
          edges.reduce((longest, edge) => (lengthOf(edge) > lengthOf(longest) ? edge : longest), first),
        ),
    );
}

/** A block on every section that nothing feeds, each with a selector of its own, or straight on the first throttle. */
export function withDeadTrackFed(draft: DraftDocument, kind: 'selector' | 'throttle'): Outcome {
  return deadEdges(draft).reduce<Outcome>(
    (so, edge) => (so.ok ? withBlockOn(so.draft, edge, { kind }) : so),
    done(draft),
  );
}

/** Takes a block out, with a knob that only it had. Refused while another block hangs on it behind a toggle. */
export function withoutBlock(draft: DraftDocument, id: BlockId): Outcome {
  const block = draft.blocks.find((each) => each.id === id);
  if (block === undefined) return refused(`there is no block ${id}`);
  const behind = draft.blocks.filter(({ source }) => 'toggle' in source && source.from === id);
  return behind.length > 0
    ? refused(`${behind.map(({ name }) => name).join(', ')} hangs on it behind a toggle: feed that first`)
    : done(withoutIdleKnob(without(draft, 'blocks', id), block.source));
}
