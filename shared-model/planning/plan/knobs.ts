/** The knobs of a railroad as numbers: selectors, toggles and levers, how each stands, what each feeds or moves, and what a run needs. */
import type { BlockId, NodeId, SelectorId, ThrottleId, ToggleId } from '../../ids.ts';
import { isThrown } from '../../railroad/travel.ts';
import type { Run } from '../runs.ts';
import type { Situation } from '../situation.ts';
import { must, type TrackTable } from '../track-table.ts';

export type Knob =
  | { readonly kind: 'selector'; readonly id: SelectorId }
  | { readonly kind: 'toggle'; readonly id: ToggleId }
  | { readonly kind: 'turnout'; readonly id: NodeId };

/** A knob (by number) and how it has to stand: a throttle's number plus one, or 1 for on and for reverse; else 0. */
export interface Need {
  readonly knob: number;
  readonly value: number;
}

export interface KnobTable {
  readonly knobs: readonly Knob[];
  /** How each stands at first. */
  readonly values: readonly number[];
  /** The blocks that each feeds by itself (of a lever: those of its edges). */
  readonly blocks: readonly (readonly number[])[];
  /** The sections behind each block: toggle and block, one step out. */
  readonly behind: readonly (readonly { readonly toggle: number; readonly block: number }[])[];
  /** The toggles through which a block is fed, from the root outwards. */
  togglesOf(block: number): readonly number[];
  /** Everything that a run needs set for a cab. */
  needs(run: Run, cab: ThrottleId): readonly Need[];
  /** How a run leaves the self-lining turnouts that it trails: the train moves them. */
  trails(run: Run): readonly Need[];
  /** A value in words: the position of a selector, true or false of a toggle, normal or reverse of a turnout. */
  word(knob: number, value: number): string | boolean;
}

const LEVER_WORDS = ['normal', 'reverse'] as const;

export function knobTable(table: TrackTable, situation: Situation): KnobTable {
  const { document, blockOfEdge, edgesAt } = table.railroad;
  const knobs: Knob[] = [
    ...document.selectors.map(({ id }): Knob => ({ kind: 'selector', id })),
    ...document.toggles.map(({ id }): Knob => ({ kind: 'toggle', id })),
    ...document.nodes.filter(isThrown).map(({ id }): Knob => ({ kind: 'turnout', id })),
  ];
  const numberOf = new Map<string, number>(knobs.map(({ id }, number) => [id, number]));
  const throttles = document.throttles.map(({ id }) => id);
  const cabValue = (cab: ThrottleId): number => throttles.indexOf(cab) + 1;
  const values = knobs.map((knob): number => {
    if (knob.kind === 'turnout') return situation.turnouts.get(knob.id) === 'reverse' ? 1 : 0;
    if (knob.kind === 'toggle') return situation.toggles.get(knob.id) === true ? 1 : 0;
    const position = situation.selectors.get(knob.id) ?? 'off';
    return position === 'off' ? 0 : cabValue(position);
  });
  const blocks: number[][] = knobs.map(() => []);
  const behind: { toggle: number; block: number }[][] = table.blocks.map(() => []);
  const numberOfBlock = (id: BlockId): number => must(table.blockNumber.get(id));
  for (const { id, source } of document.blocks) {
    const block = numberOfBlock(id);
    if ('selector' in source) blocks[must(numberOf.get(source.selector))]?.push(block);
    else if ('toggle' in source) {
      const toggle = must(numberOf.get(source.toggle));
      blocks[toggle]?.push(block);
      behind[numberOfBlock(source.from)]?.push({ toggle, block });
    }
  }
  knobs.forEach((knob, number) => {
    if (knob.kind !== 'turnout') return;
    const touched = (edgesAt.get(knob.id) ?? []).map((edge) => blockOfEdge.get(edge));
    blocks[number] = [...new Set(touched.filter((block) => block !== undefined).map(numberOfBlock))];
  });
  const togglesOf = table.feeds.map((feed) => (feed?.toggles ?? []).map((id) => must(numberOf.get(id))));
  const feedNeeds = (block: number, cab: ThrottleId): Need[] => {
    const feed = must(table.feeds[block]);
    return [
      ...(feed.selector === null ? [] : [{ knob: must(numberOf.get(feed.selector)), value: cabValue(cab) }]),
      ...must(togglesOf[block]).map((toggle) => ({ knob: toggle, value: 1 })),
    ];
  };
  const leverNeeds = ({ levers }: Run, trailed: boolean): Need[] =>
    levers
      .filter((lever) => lever.trailed === trailed)
      .map(({ id, position }) => ({ knob: must(numberOf.get(id)), value: LEVER_WORDS.indexOf(position) }));
  return {
    knobs,
    values,
    blocks,
    behind,
    togglesOf: (block) => must(togglesOf[block]),
    trails: (run) => leverNeeds(run, true),
    needs: (run, cab) => {
      const all = [
        ...run.enters.flatMap(({ resource }) => feedNeeds(resource, cab)),
        ...leverNeeds(run, false),
      ];
      return [...new Map(all.map((need) => [need.knob, need])).values()];
    },
    word: (knob, value) => {
      switch (must(knobs[knob]).kind) {
        case 'selector':
          return value === 0 ? 'off' : must(throttles[value - 1]);
        case 'toggle':
          return value === 1;
        case 'turnout':
          return must(LEVER_WORDS[value]);
      }
    },
  };
}
