/** A reason of a refusal in as few words as can be spoken: "5 is No. 12's (Cab 2)". The full sentence is in the reason itself. */
import type { BlockId, ThrottleId, TrainId } from '../ids.ts';
import { blockMarks } from '../railroad/block-marks.ts';
import type { Refusal } from '../refusal.ts';
import { DISPATCHER } from './dispatcher.ts';
import { called } from './rules/sentences.ts';
import type { World } from './world.ts';

const possessive = (name: string): string => `${name}'s`;

/** "No. 12's (Cab 2)"; a cut of cars has no cab. */
function whose({ railroad, state }: World, id: string): string {
  const train = state.trains[id as TrainId];
  if (train === undefined) return possessive(id);
  const cab = train.cab === null ? undefined : railroad.throttles.get(train.cab);
  return cab === undefined ? possessive(train.name) : `${possessive(train.name)} (${cab.name})`;
}

/** "selector 6 is out of service: loose knob, says Kim". */
function tagged(world: World, thing: string): string {
  const tag = world.state.tags.find((one) => one.thing === thing);
  const why = tag === undefined ? '' : `: ${tag.why}`;
  const who = tag === undefined || tag.by === DISPATCHER ? '' : `, says ${tag.by}`;
  return `${called(world, thing)} is out of service${why}${who}`;
}

/**
 * @param asked the train that the order was about, or null
 * @returns words without a full stop; the reason's own sentence where it cannot be said shorter
 */
export function shortReason(world: World, { code, about, says }: Refusal, asked: TrainId | null): string {
  const [first = '', second = '', third = ''] = about;
  const mark = blockMarks(world.railroad.document).get(first as BlockId) ?? first;
  const name = (id: string): string => called(world, id);
  switch (code) {
    case 'block-occupied':
      return second === asked ? `its own tail is still in ${mark}` : `${mark} is ${whose(world, second)}`;
    case 'block-owned':
      return `${mark} is ${possessive(name(second))} (${name(third as ThrottleId)})`;
    case 'block-disputed':
      return `${mark} is disputed`;
    case 'cab-not-wired':
      return `the dial of ${mark} has no position for ${name(second)}`;
    case 'hand-off-needed':
      return `${mark} is wired straight to ${name(second)}`;
    case 'unphased-gap':
      return `${name(second)} and ${name(third)} are not in phase`;
    case 'phase-unknown':
      return `no phase check speaks for ${name(second)} and ${name(third)}`;
    case 'out-of-service':
      return tagged(world, first);
    case 'section-live':
      return `${name(second)} is live behind ${name(first)}`;
    case 'turnout-locked':
      return `${name(first)} is locked`;
    case 'crossing-taken':
      return `${name(first)} is taken`;
    case 'second-train-live':
      return `${name(second)} would start too`;
    case 'train-too-long':
      return `${name(first)} does not fit into ${blockMarks(world.railroad.document).get(second as BlockId) ?? second}`;
    case 'overload':
      return `too much current for ${name(first)}`;
    case 'gridlock-ahead':
      return 'the trains would lock each other in';
    case 'no-route':
      return `no track leads to ${blockMarks(world.railroad.document).get(second as BlockId) ?? second} in its facing`;
    case 'not-now':
    case 'bridged':
    case 'sweeps-live-position':
      return says.replace(/\.$/, '');
  }
}
