/** Lines of the entry line that may say an input; which of them does is found by reading them. */
import { blockMarks } from '../../shared-model/railroad/block-marks.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Evening } from '../../shared-model/session/evening.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';

/** How the things of an input may be typed. */
class Words {
  readonly railroad: Railroad;
  readonly state: Evening['state'];
  constructor({ railroad, state }: Evening) {
    this.railroad = railroad;
    this.state = state;
  }
  train(id: string): string {
    const name = this.state.trains[id as never as keyof Evening['state']['trains']]?.name ?? id;
    return /\d+/.exec(name)?.[0] ?? id;
  }
  block(id: string): string {
    return blockMarks(this.railroad.document).get(id as never) ?? id;
  }
  /** Ways to say where a head stands: with and without the facing. */
  spots(edge: string, toward: string): readonly string[] {
    const block = this.block(this.railroad.blockOfEdge.get(edge as never) ?? '');
    const node = (this.railroad.edgesAt.get(toward as never) ?? [])
      .map((other) => this.railroad.blockOfEdge.get(other))
      .flatMap((other) => (other === undefined ? [] : [this.block(other)]));
    return [block, edge].flatMap((at) => [
      at,
      ...node.map((other) => `${at} f ${other}`),
      `${at} f ${toward}`,
    ]);
  }
  destinations(to: string): readonly string[] {
    const block = this.railroad.blockOfEdge.get(to as never);
    return [...(block === undefined ? [] : [this.block(block)]), this.block(to), to.toLowerCase()];
  }
}

/** A word cut short, from one letter on: whatever is not plain is not read as one thing. */
const begun = (word: string): readonly string[] =>
  Array.from({ length: word.length }, (_, index) => word.slice(0, index + 1));

/** Words that begin a line or follow its train, each cut short in every way, with what comes after. */
const short = (before: string, word: string, ...after: readonly string[]): readonly string[] =>
  begun(word).flatMap((said) => after.map((rest) => `${before}${said}${rest}`));

const byWhom = (by: string): string => (by === 'dispatcher' ? '' : ` by ${by}`);

/** The lines that may say an input. */
export function linesFor(evening: Evening, input: SessionInput): readonly string[] {
  const say = new Words(evening);
  const thingOf = (thing: string): string =>
    evening.railroad.throttles.has(thing as never) ? `c${thing}` : thing.toLowerCase();
  const train = 'train' in input && input.train !== undefined ? `${say.train(input.train)} ` : '';
  switch (input.do) {
    case 'note':
      return short('', 'note', ` ${input.text}`);
    case 'assign-cab':
      return [`c${input.cab} ${input.person ?? 'nobody'}`];
    case 'set-clock':
      return short(
        '',
        'clock',
        ` ${Math.floor(input.minutes / 60)}:${String(input.minutes % 60).padStart(2, '0')} ${input.ratio}`,
      );
    case 'apply-setting':
      return short('', 'setting', ...begun(input.setting).map((name) => ` ${name}`));
    case 'selector-stands-at':
      return [`${input.selector} is ${input.position}`.toLowerCase()];
    case 'turn-selector':
      return [
        input.selector.toLowerCase(),
        `${input.selector} ${input.position === 'off' ? 0 : input.position}`.toLowerCase(),
      ];
    case 'turnout-stands-at':
      return [`${input.turnout} is ${input.position.charAt(0)}`.toLowerCase()];
    case 'throw-turnout':
      return [input.turnout.toLowerCase(), `${input.turnout} ${input.position.charAt(0)}`.toLowerCase()];
    case 'toggle-stands-at':
      return [`${input.toggle} is ${input.on ? 'on' : 'off'}`.toLowerCase()];
    case 'set-toggle':
      return [input.toggle.toLowerCase(), `${input.toggle} ${input.on ? 'on' : 'off'}`.toLowerCase()];
    case 'place-train': {
      const cab = input.cab === undefined ? '' : ` c${input.cab}`;
      return say
        .spots(input.edge, input.toward)
        .flatMap((spot) => [`${train}${spot}${cab}`, `place ${train}at ${spot}${cab}`]);
    }
    case 'train-at':
      return say
        .spots(input.edge, input.toward)
        .flatMap((spot) => [...short(train, 'at', ` ${spot}`), ...short(train, 'found', ` at ${spot}`)]);
    case 'release-limits':
      return say.spots(input.edge, input.toward).flatMap((spot) => short(train, 'done', ` ${spot}`));
    case 'set-out':
      return say
        .spots(input.edge, input.toward)
        .flatMap((spot) =>
          short(train, 'sets', ` ${input.length} ${spot}`, ` ${input.cut} ${input.length} ${spot}`),
        );
    case 'request-move': {
      const over = input.overhang === true ? ' o' : '';
      return say.destinations(input.to).flatMap((to) => [`${train}${to}${over}`, `${train}to ${to}${over}`]);
    }
    case 'grant-limits':
      return short(train, 'limits', ` ${input.blocks.map((block) => say.block(block)).join(',')}`);
    case 'tag':
      return short('', 'tag', ` ${thingOf(input.thing)} ${input.why}${byWhom(input.by)}`);
    case 'untag':
      return short('', 'untag', ` ${thingOf(input.thing)}${byWhom(input.by)}`);
    case 'start':
    case 'resume':
      return begun(input.do);
    case 'end-session':
      return begun('end');
    case 'stop-all':
      return short('', input.kind === 'break' ? 'break' : 'stop', '', ` ${input.why}`);
    case 'add-train':
      return [say.train(input.name), input.name].flatMap((name) =>
        short('', 'new', ` ${name} ${input.length} ${input.amps}`),
      );
    case 'train-entered':
      return short(train, 'in', ` ${say.block(input.block)}`);
    case 'train-cleared':
      return short(train, 'clear', ` ${say.block(input.block)}`);
    case 'train-stopped':
      return short(train, 'stopped', '');
    case 'pick-up':
      return short(train, 'takes', '', ` ${input.cut}`);
    case 'couple':
      return short(train, 'takes', ` ${say.train(input.other)}`);
    case 'stalled':
    case 'derailed':
    case 'rerailed':
    case 'withdraw':
    case 'advance':
      return short(train, input.do, '');
    case 'take-off':
      return [`${train}off`];
    case 'handle-at-zero':
      return [...begun('zero'), ...short(`c${input.cab} `, 'zero', '')];
    case 'stop-called':
      return [`c${input.cab} stop`];
    case 'call':
      return [`c${input.cab} calls`];
    case 'breaker-tripped':
      return short('', 'trip', ...begun(input.supply).map((supply) => ` ${supply}`));
    case 'breaker-reset':
      return short('', 'reset', ...begun(input.supply).map((supply) => ` ${supply}`));
    case 'supply-replugged':
      return short('', 'replug', ` ${input.supply}`);
    case 'phase-measured': {
      const volts = ` ${input.voltsA} ${input.voltsB} ${String(input.voltsAcross).replace(/^0/, '')}`;
      return short('', 'phase', volts, ` ${input.a.charAt(0)} ${input.b.charAt(0)}${volts}`);
    }
    case 'change-cab':
      return [`${train}c${input.cab}`];
    case 'hand-off':
      return [`${train}c${input.toCab} at ${say.block(input.block)}`];
    case 'settle': {
      const whose = input.state === 'open' ? begun('empty') : [say.train(input.train ?? '')];
      return whose.map((said) => `${say.block(input.block)} is ${said}`);
    }
    case 'declare':
      return say.destinations(input.to).flatMap((to) => short(train, 'ends', ` ${to}`));
    case 'make-up':
      return [`${train}is ${input.length} ${input.amps}`];
    case 'annul': {
      const held = evening.state.authorities[input.authority]?.train ?? '';
      return [say.train(held), input.authority].map((whose) => `annul ${whose} ${input.why}`);
    }
    case 'acknowledge': {
      const held = evening.state.authorities[input.authority]?.train ?? '';
      return [`right ${say.train(held)}`, `right ${input.authority}`];
    }
    case 'retract':
      return ['retract', `retract ${input.entry}`].map((line) => `${line} ${input.why}`);
    case 'override':
      return [
        `override ${input.why}`,
        ...linesFor(evening, input.order).map((line) => `override ${input.why}: ${line}`),
      ];
    case 'alarm-seen':
      return ['seen', `seen ${input.alarm}`];
    case 'open-session':
      return [];
  }
}
