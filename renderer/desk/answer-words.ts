/** An answer in words: the head of a refusal for across the room, and the reasons. */
import type { TrainId } from '../../shared-model/ids.ts';
import type { Refusal } from '../../shared-model/refusal.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { spokenDestination } from '../../shared-model/session/say.ts';
import { shortReason } from '../../shared-model/session/short-reason.ts';
import type { World } from '../../shared-model/session/world.ts';
import type { Explained } from './explain.ts';

/** "REFUSED 7": the number is the train's, where it is about one. */
export function answerHead({ state }: World, { input }: SessionEvent): string {
  const train = 'train' in input ? state.trains[input.train as TrainId] : undefined;
  const thing = 'selector' in input ? input.selector : 'turnout' in input ? input.turnout : '';
  const name = train === undefined ? thing : (/\d+/.exec(train.name)?.[0] ?? train.name);
  return `REFUSED ${name}`.trim();
}

/** What was asked, and why not: "7 to Quarry: 5 is No. 12's." */
export function answerWords(world: World, answer: Explained): string {
  if (answer.kind === 'told') return answer.says;
  const { input, reasons } = answer.event;
  const asked = input.do === 'request-move' ? `to ${spokenDestination(world.railroad, input.to)}: ` : '';
  const train = 'train' in input ? (input.train as TrainId) : null;
  // Whether a change of ends would help is only in the long sentence.
  const words = (reasons as readonly Refusal[]).map((reason) =>
    reason.code === 'no-route' ? reason.says.replace(/\.$/, '') : shortReason(world, reason, train),
  );
  return `${asked}${[...new Set(words)].join('; ')}.`;
}
