/** An entry of the log in words: what was said or done, with names and marks instead of ids where they are known. */
import type { AuthorityId, TrainId } from '../ids.ts';
import { type LengthSystem, lengthText } from '../length-text.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Spot } from '../railroad/travel.ts';
import { spotWords } from '../railroad/where-words.ts';
import type { SessionEvent } from '../session/event.ts';
import type { SessionInput } from '../session/input.ts';
import { called, capital } from '../session/rules/sentences.ts';
import { spokenBlock, spokenDestination } from '../session/say.ts';
import type { SessionState } from '../session/state.ts';
import type { Millimetres } from '../units.ts';

interface Namer {
  readonly train: (id: string) => string;
  readonly cab: (id: string) => string;
  readonly block: (id: string) => string;
  readonly place: (to: string) => string;
  /** Where a head is. */
  readonly spot: (spot: Spot) => string;
  /** An authority by its train and its number. */
  readonly authority: (id: AuthorityId) => string;
  /** Anything that can be tagged. */
  readonly thing: (id: string) => string;
  readonly length: (mm: Millimetres) => string;
  readonly knob: (id: string) => string;
  readonly supply: (id: string) => string;
  readonly setting: (id: string) => string;
}

function namer(railroad: Railroad, state: SessionState, lengths: LengthSystem): Namer {
  const { document } = railroad;
  const things = [...document.selectors, ...document.toggles];
  const train = (id: string): string =>
    state.trains[id as TrainId]?.name ?? document.trains.find((one) => one.id === id)?.name ?? id;
  return {
    train,
    cab: (id) =>
      id === 'off' ? 'off' : (document.throttles.find((throttle) => throttle.id === id)?.name ?? id),
    block: (id) => spokenBlock(railroad, id),
    place: (to) => spokenDestination(railroad, to),
    spot: (spot) => spotWords(railroad, spot),
    authority: (id) => {
      const held = state.authorities[id];
      return held === undefined ? `Authority ${id}` : `${train(held.train)}: authority ${id}`;
    },
    thing: (id) => called({ railroad, state }, id),
    length: (mm) => lengthText(mm, lengths),
    knob: (id) => things.find((thing) => thing.id === id)?.name ?? id,
    supply: (id) => document.supplies.find((supply) => supply.id === id)?.name ?? id,
    setting: (id) => document.settings.find((setting) => setting.id === id)?.name ?? id,
  };
}

const onOff = (on: boolean): string => (on ? 'on' : 'off');

function moveWords(input: SessionInput, name: Namer): string | null {
  switch (input.do) {
    case 'request-move':
      return `${name.train(input.train)} to ${name.place(input.to)}?`;
    case 'acknowledge':
      return `${name.authority(input.authority)} read back`;
    case 'annul':
      return `${name.authority(input.authority)} annulled: ${input.why}`;
    case 'withdraw':
      return `${name.train(input.train)} asks no more`;
    case 'declare':
      return `${name.train(input.train)} is to end up at ${name.place(input.to)}`;
    case 'hand-off':
      return `${name.train(input.train)} to ${name.cab(input.toCab)} from block ${name.block(input.block)} on`;
    case 'grant-limits':
      return `${name.train(input.train)}: limits ${input.blocks.map(name.block).join(', ')}`;
    case 'release-limits':
      return `${name.train(input.train)} is clear of its limits, in ${name.spot(input)}`;
    case 'change-cab':
      return `${name.train(input.train)} changes to ${name.cab(input.cab)}`;
    case 'advance':
      return `${name.train(input.train)} one block on`;
    case 'train-entered':
      return `${name.train(input.train)} is in block ${name.block(input.block)}`;
    case 'train-cleared':
      return `${name.train(input.train)} is clear of block ${name.block(input.block)}`;
    case 'train-stopped':
      return `${name.train(input.train)} has stopped`;
    case 'train-at':
      return `${name.train(input.train)} is in ${name.spot(input)}`;
    case 'stalled':
    case 'derailed':
    case 'rerailed':
      return `${name.train(input.train)} ${input.do}`;
    case 'set-out':
      return `${name.train(input.train)} sets out ${input.cut}, ${name.length(input.length)}, in ${name.spot(input)}`;
    case 'pick-up':
      return `${name.train(input.train)} picks up ${input.cut}`;
    case 'couple':
      return `${name.train(input.train)} couples to ${name.train(input.other)}`;
    default:
      return null;
  }
}

function roomWords(input: SessionInput, name: Namer): string | null {
  switch (input.do) {
    case 'open-session':
      return 'Session opened';
    case 'start':
      return 'The evening starts';
    case 'end-session':
      return 'Session ended';
    case 'assign-cab':
      return input.person === null
        ? `Nobody has ${name.cab(input.cab)}`
        : `${input.person} has ${name.cab(input.cab)}`;
    case 'place-train':
      return `${name.train(input.train)} placed in ${name.spot(input)}`;
    case 'take-off':
      return `${name.train(input.train)} lifted off`;
    case 'stop-all':
      return `ALL STOP, ${input.kind}: ${input.why}`;
    case 'resume':
      return 'Resumed';
    case 'turn-selector':
      return `Selector ${name.knob(input.selector)} turned to ${name.cab(input.position ?? 'a position that is not wired')}`;
    case 'selector-stands-at':
      return `Selector ${name.knob(input.selector)} stands at ${name.cab(input.position)}`;
    case 'throw-turnout':
      return `Turnout ${input.turnout} thrown ${input.position}`;
    case 'turnout-stands-at':
      return `Turnout ${input.turnout} stands ${input.position}`;
    case 'set-toggle':
      return `Toggle ${name.knob(input.toggle)} set ${onOff(input.on)}`;
    case 'toggle-stands-at':
      return `Toggle ${name.knob(input.toggle)} stands ${onOff(input.on)}`;
    case 'settle':
      return `Block ${name.block(input.block)} settled: ${input.state}${input.train === undefined ? '' : ` by ${name.train(input.train)}`}`;
    case 'retract':
      return `Entry ${input.entry} taken back: ${input.why}`;
    case 'alarm-seen':
      return `Alarm of entry ${input.alarm} seen`;
    case 'tag':
      return `${capital(name.thing(input.thing))} tagged by ${input.by}: ${input.why}`;
    case 'untag':
      return `Tag of ${name.thing(input.thing)} taken off by ${input.by}`;
    case 'call':
      return `${name.cab(input.cab)} calls`;
    case 'stop-called':
      return `Stop called to ${name.cab(input.cab)}`;
    case 'handle-at-zero':
      return `${name.cab(input.cab)}: handle at zero`;
    case 'breaker-tripped':
      return `Breaker of ${name.supply(input.supply)} tripped`;
    case 'breaker-reset':
      return `Breaker of ${name.supply(input.supply)} reset`;
    case 'note':
      return `Note: ${input.text}`;
    default:
      return null;
  }
}

const two = (figure: number): string => String(Math.floor(figure)).padStart(2, '0');

function figureWords(input: SessionInput, name: Namer): string {
  switch (input.do) {
    case 'set-clock':
      return `Railroad time ${Math.floor(input.minutes / 60)}:${two(input.minutes % 60)}, ${input.ratio} to 1`;
    case 'apply-setting':
      return `Setting: ${name.setting(input.setting)}`;
    case 'add-train':
      return `New tonight: ${input.name}, ${name.length(input.length)}, ${input.amps} A`;
    case 'make-up':
      return `${name.train(input.train)} is ${name.length(input.length)} long now and draws ${input.amps} A`;
    case 'phase-measured':
      return `Phase: ${name.supply(input.a)} ${input.voltsA} V, ${name.supply(input.b)} ${input.voltsB} V, ${input.voltsAcross} V across`;
    case 'supply-replugged':
      return `${name.supply(input.supply)} was replugged`;
    default:
      return input.do.replaceAll('-', ' ');
  }
}

function inputWords(input: SessionInput, name: Namer): string {
  if (input.do === 'override') return `Overridden, ${input.why}: ${inputWords(input.order, name)}`;
  return moveWords(input, name) ?? roomWords(input, name) ?? figureWords(input, name);
}

/**
 * What an entry says.
 *
 * @param state the state after the entry, for the names of trains added tonight
 * @param lengths the user's units of length
 * @returns one sentence without its reasons; those are in the entry's `reasons`
 */
export function eventWords(
  railroad: Railroad,
  state: SessionState,
  { input }: SessionEvent,
  lengths: LengthSystem = 'metric',
): string {
  return inputWords(input, namer(railroad, state, lengths));
}
