/** One key for a train: the next block of its authority entered, with the throws that it shows were made, and what lies clear behind. */
import type { Happening } from './alarms.ts';
import { report } from './knob-reports.ts';
import { clearedBehind, happened, trainCleared, trainEntered } from './reports.ts';
import { ahead, authorityOf, headBlock, type Line, type Reason, type State, type World } from './state.ts';
import { wrongIn } from './throws.ts';
import { blocksUnder, waysOf } from './views.ts';

const notNow = (about: string): Reason[] => [{ code: 'not-now', about: [about] }];

export function advance(world: World, state: State, line: Line, happening: Happening): Reason[] {
  const { train } = line;
  const now = state.trains[train];
  const authority = authorityOf(state, train);
  if (!now || !authority) return notNow(train);
  const [next] = ahead(authority);
  if (authority.kind === 'limits' || authority.state === 'granted' || next?.read === false)
    return notNow(authority.id);
  const clear = (blocks: readonly string[]): void => {
    for (const block of blocks)
      trainCleared(world, state, { at: line.at, do: 'train-cleared', train, block }, happening);
  };
  if (next === undefined) {
    happened(world, state, { at: line.at, do: 'train-stopped', train }, happening);
    // Within one block there is nothing to enter: it has run to where it was sent.
    if (now.known) now.trail = [...authority.lead.splice(0).reverse(), ...now.trail];
    const covered = blocksUnder(world, state, train);
    const head = headBlock(state, train);
    clear(now.blocks.map(({ block }) => block).filter((block) => block !== head && !covered.includes(block)));
    return [];
  }
  for (const { kind, id, to } of wrongIn(world, state, next.block, next.cab, waysOf(next.steps))) {
    const isOff = kind === 'selector' && state.selectors[id] === 'off';
    if (isOff || kind === 'toggle' || !state.shown.includes(id))
      report(world, state, kind, id, to, happening);
  }
  trainEntered(world, state, { at: line.at, do: 'train-entered', train, block: next.block }, happening);
  clear(clearedBehind(world, state, train, next.steps.length));
  return [];
}
