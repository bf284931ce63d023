/** The plain sentence of every refusal and alarm: what is wrong, with the names of the things, never with a colour. */
import type { BlockId, ThrottleId, TrainId } from '../../ids.ts';
import { blockMarks } from '../../railroad/block-marks.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import { gapWords } from '../../railroad/where-words.ts';
import type { Alarm, AlarmCode, Refusal, RefusalCode } from '../../refusal.ts';
import type { World } from '../world.ts';
import { notNowWords } from './not-now-words.ts';

function blockCalled(railroad: Railroad, id: string, name: string): string {
  const mark = blockMarks(railroad.document).get(id as BlockId) ?? id;
  return mark === name ? `block ${mark}` : `block ${mark} (${name})`;
}

/** How a thing is called in a sentence: blocks by their mark and name, gaps by the blocks that they part. */
export function called(world: World, id: string): string {
  const { railroad, state } = world;
  const train = state.trains[id as TrainId];
  if (train !== undefined) return train.name;
  const block = railroad.blocks.get(id as BlockId);
  if (block !== undefined) return blockCalled(railroad, id, block.name);
  const throttle = railroad.throttles.get(id as ThrottleId);
  if (throttle !== undefined) return throttle.name;
  const { document } = railroad;
  const selector = document.selectors.find((other) => other.id === id);
  if (selector !== undefined) return `selector ${selector.name}`;
  const named = [...document.toggles, ...document.supplies, ...document.places].find(
    (other) => other.id === id,
  );
  if (named !== undefined) return named.name;
  const node = document.nodes.find((other) => other.id === id);
  if (node !== undefined) return node.kind === 'gap' ? gapWords(railroad, id) : `${node.kind} ${id}`;
  return id;
}

const REFUSED: Record<Exclude<RefusalCode, 'not-now'>, (name: (index: number) => string) => string> = {
  'no-route': (name) => `No track leads ${name(0)} to ${name(1)} in its facing.`,
  'out-of-service': (name) => `${name(0)} is tagged out of service.`,
  'block-occupied': (name) => `${name(0)} is occupied by ${name(1)}.`,
  'block-owned': (name) => `${name(0)} is pledged to ${name(1)} on ${name(2)}.`,
  'block-disputed': (name) => `${name(0)} is disputed: settle what is true there first.`,
  'cab-not-wired': (name) => `The dial of ${name(0)} has no position for ${name(1)}.`,
  'hand-off-needed': (name) => `${name(0)} is wired straight to ${name(1)}: agree a hand-off first.`,
  'unphased-gap': (name) =>
    `Across ${name(0)}, ${name(1)} and ${name(2)} are not in phase: a train there would tie them together (NEM 609, 6.1).`,
  'phase-unknown': (name) => `Across ${name(0)}, no valid phase check speaks for ${name(1)} and ${name(2)}.`,
  'section-live': (name) =>
    `${name(1)} stands in a section that is switched on by ${name(0)} and would run too.`,
  'turnout-locked': (name) => `${name(0)} is locked.`,
  'crossing-taken': (name) => `The other way over ${name(0)} is taken.`,
  'second-train-live': (name) =>
    `${name(1)} stands on track that this cab feeds by ${name(0)} and would start too.`,
  'train-too-long': (name) => `${name(0)} does not fit into ${name(1)}.`,
  overload: (name) => `${name(0)} would carry more current than it is rated for.`,
  'gridlock-ahead': () => 'After this move the trains would lock each other: somebody would have to back up.',
  bridged: (name) => `A train stands across ${name(0)}: its two sides would come to be on two throttles.`,
  'sweeps-live-position': (name) => `Turning ${name(0)} would pass over the live position of ${name(1)}.`,
};

const RAISED: Record<AlarmCode, (name: (index: number) => string) => string> = {
  'entered-unauthorised': (name) => `${name(0)} is in ${name(1)} without authority.`,
  'entered-unlined': (name) => `${name(0)} is in ${name(1)}, which was not lined for it.`,
  'not-adjacent': (name) => `${name(0)} cannot have got to ${name(1)} from where it was.`,
  'still-under': (name) => `${name(0)} was reported clear of ${name(1)}, but its length still covers it.`,
  'wrong-throttle': (name) => `${name(0)} stands at ${name(1)}, which is not its owner's.`,
  'turnout-moved': (name) => `${name(0)} moved under a lock.`,
  'second-train': (name) => `By ${name(0)}, ${name(1)} runs with another train's cab.`,
  bridging: (name) => `A train stands across ${name(0)} between two throttles.`,
  'unphased-ahead': (name) =>
    `An authority leads over ${name(0)}, and ${name(1)} and ${name(2)} are no longer in phase.`,
  breaker: (name) => `The breaker of ${name(0)} tripped: its blocks are dead.`,
  'off-the-rails': (name) => `${name(0)} is off the rails.`,
};

const namer =
  (world: World, about: readonly string[]) =>
  (index: number): string => {
    const id = about[index];
    return id === undefined ? '' : called(world, id);
  };

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A refusal with its sentence; `more` is added where the rules know more than the code says. */
export function refusal(world: World, code: RefusalCode, about: readonly string[], more = ''): Refusal {
  const words =
    code === 'not-now'
      ? `${notNowWords(world, about[0], (id) => called(world, id))}.`
      : REFUSED[code](namer(world, about));
  const says = capital(words);
  return { code, about, says: more === '' ? says : `${says} ${more}` };
}

/** An alarm with its sentence. */
export function alarm(world: World, code: AlarmCode, about: readonly string[]): Alarm {
  return { code, about, says: capital(RAISED[code](namer(world, about))) };
}
