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
    const facing = [...this.railroad.blocks.keys()].map((other) => this.block(other));
    return [block, edge].flatMap((at) => [
      at,
      ...facing.map((other) => `${at} fa ${other}`),
      `${at} fa ${toward.toLowerCase()}`,
    ]);
  }
  destinations(to: string): readonly string[] {
    const block = this.railroad.blockOfEdge.get(to as never);
    return [...(block === undefined ? [] : [this.block(block)]), this.block(to), to.toLowerCase()];
  }
}

export interface TypedLine {
  readonly line: string;
  /** Letters of free text in it. */
  readonly text: number;
}
const plain = (...lines: readonly string[]): readonly TypedLine[] => lines.map((line) => ({ line, text: 0 }));

/** A word cut short, from two letters on: whatever is not plain is not read as one thing. */
const begun = (word: string): readonly string[] =>
  Array.from({ length: word.length - 1 }, (_, index) => word.slice(0, index + 2));

/** The lines that may say an input. */
export function linesFor(evening: Evening, input: SessionInput): readonly TypedLine[] {
  const say = new Words(evening);
  switch (input.do) {
    case 'note':
      return [{ line: `note ${input.text}`, text: input.text.length }];
    case 'assign-cab':
      return input.person === null
        ? plain(`c${input.cab} nobody`)
        : [{ line: `c${input.cab} ${input.person}`, text: input.person.length }];
    case 'set-clock':
      return plain(
        `clock ${Math.floor(input.minutes / 60)}:${String(input.minutes % 60).padStart(2, '0')} ${input.ratio}`,
      );
    case 'apply-setting':
      return plain(
        ...begun(`setting`).flatMap((word) => begun(input.setting).map((name) => `${word} ${name}`)),
      );
    case 'selector-stands-at':
      return plain(`${input.selector} is ${input.position}`.toLowerCase());
    case 'turn-selector':
      return plain(`${input.selector} ${input.position === 'off' ? 0 : input.position}`.toLowerCase());
    case 'turnout-stands-at':
      return plain(`${input.turnout} is ${input.position.charAt(0)}`.toLowerCase());
    case 'throw-turnout':
      return plain(`${input.turnout} ${input.position.charAt(0)}`.toLowerCase());
    case 'toggle-stands-at':
      return plain(`${input.toggle} is ${input.on ? 'on' : 'off'}`.toLowerCase());
    case 'set-toggle':
      return plain(`${input.toggle} ${input.on ? 'on' : 'off'}`.toLowerCase());
    case 'place-train': {
      const cab = input.cab === undefined ? '' : ` c${input.cab}`;
      return plain(
        ...say
          .spots(input.edge, input.toward)
          .flatMap((spot) =>
            ['', 'place '].map((word) => `${word}${say.train(input.train)} at ${spot}${cab}`),
          ),
      );
    }
    case 'train-at':
      return plain(
        ...say
          .spots(input.edge, input.toward)
          .flatMap((spot) => ['', 'found '].map((word) => `${say.train(input.train)} ${word}at ${spot}`)),
      );
    case 'release-limits':
      return plain(
        ...say.spots(input.edge, input.toward).map((spot) => `${say.train(input.train)} do at ${spot}`),
      );
    case 'set-out':
      return plain(
        ...say
          .spots(input.edge, input.toward)
          .map((spot) => `${say.train(input.train)} se ${input.cut} ${input.length} in ${spot}`),
      );
    case 'request-move': {
      const over = input.overhang === true ? ' o' : '';
      return plain(...say.destinations(input.to).map((to) => `${say.train(input.train)} ${to}${over}`));
    }
    case 'grant-limits':
      return plain(
        ...begun('limits').map(
          (word) =>
            `${say.train(input.train)} ${word} ${input.blocks.map((block) => say.block(block)).join(',')}`,
        ),
      );
    case 'tag': {
      const by = input.by === 'dispatcher' ? '' : ` by ${input.by}`;
      const thing = evening.railroad.throttles.has(input.thing as never)
        ? `c${input.thing}`
        : input.thing.toLowerCase();
      return [{ line: `tag ${thing} ${input.why}${by}`, text: input.why.length + by.length }];
    }
    case 'untag': {
      const by = input.by === 'dispatcher' ? '' : ` by ${input.by}`;
      const thing = evening.railroad.throttles.has(input.thing as never)
        ? `c${input.thing}`
        : input.thing.toLowerCase();
      return [{ line: `untag ${thing}${by}`, text: by.length }];
    }
    case 'start':
      return plain(...begun('start'));
    case 'end-session':
      return plain('end');
    case 'resume':
      return plain(...begun('resume'));
    case 'stop-all':
      return [{ line: `${input.kind === 'break' ? 'break' : 'stop'} ${input.why}`, text: input.why.length }];
    case 'add-train':
      return plain(
        `new ${say.train(input.name)} ${input.length} ${input.amps}`,
        `new ${input.name} ${input.length} ${input.amps}`,
      );
    case 'train-entered':
      return plain(`${say.train(input.train)} in ${say.block(input.block)}`);
    case 'train-cleared':
      return plain(`${say.train(input.train)} clear ${say.block(input.block)}`);
    case 'train-stopped':
      return plain(`${say.train(input.train)} stopped`);
    case 'pick-up':
      return plain(...begun('takes').map((word) => `${say.train(input.train)} ${word} ${input.cut}`));
    case 'couple':
      return plain(`${say.train(input.train)} takes ${say.train(input.other)}`);
    case 'stalled':
    case 'derailed':
    case 'rerailed':
      return plain(...begun(input.do).map((word) => `${say.train(input.train)} ${word}`));
    case 'take-off':
      return plain(`${say.train(input.train)} off`);
    case 'handle-at-zero':
      return plain('zero', `c${input.cab} zero`);
    case 'stop-called':
      return plain(`c${input.cab} stop`);
    case 'call':
      return plain(`c${input.cab} calls`);
    case 'breaker-tripped':
      return plain(...begun('trip').map((word) => `${word} ${input.supply.charAt(0)}`));
    case 'breaker-reset':
      return plain(...begun('reset').map((word) => `${word} ${input.supply.charAt(0)}`));
    case 'supply-replugged':
      return plain(`replug ${input.supply}`);
    case 'phase-measured':
      return plain(
        ...begun('phase').map(
          (word) =>
            `${word} ${input.a.charAt(0)} ${input.b.charAt(0)} ${input.voltsA} ${input.voltsB} ${String(input.voltsAcross).replace(/^0/, '')}`,
        ),
      );
    case 'change-cab':
      return plain(`${say.train(input.train)} c${input.cab}`);
    case 'hand-off':
      return plain(`${say.train(input.train)} c${input.toCab} at ${say.block(input.block)}`);
    case 'settle':
      return plain(
        `${say.block(input.block)} is ${input.state === 'open' ? 'em' : say.train(input.train ?? '')}`,
      );
    case 'declare':
      return plain(...say.destinations(input.to).map((to) => `${say.train(input.train)} ends ${to}`));
    case 'withdraw':
      return plain(`${say.train(input.train)} withdraw`);
    case 'make-up':
      return plain(`${say.train(input.train)} is ${input.length} ${input.amps}`);
    case 'annul': {
      const train = evening.state.authorities[input.authority]?.train ?? '';
      return [say.train(train), input.authority].map((held) => ({
        line: `annul ${held} ${input.why}`,
        text: input.why.length,
      }));
    }
    case 'acknowledge': {
      const train = evening.state.authorities[input.authority]?.train ?? '';
      return plain(`right ${say.train(train)}`, `right ${input.authority}`);
    }
    case 'retract':
      return ['retract', `retract ${input.entry}`].map((line) => ({
        line: `${line} ${input.why}`,
        text: input.why.length,
      }));
    case 'override':
      return [
        { line: `override ${input.why}`, text: input.why.length },
        ...linesFor(evening, input.order).map(({ line, text }) => ({
          line: `override ${input.why}: ${line}`,
          text: input.why.length + text,
        })),
      ];
    case 'alarm-seen':
      return plain('seen', `seen ${input.alarm}`);
    case 'advance':
      return plain(`${say.train(input.train)} advance`);
    case 'open-session':
      return [];
  }
}
