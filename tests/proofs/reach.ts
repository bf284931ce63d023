/** Counts the states that can be reached on a tiny railroad by a few words, depth by depth, whatever machine steps from one to the next. */
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { drawn } from './hand-railroads.ts';

export type Words = { readonly do: string } & Readonly<Record<string, unknown>>;

/** Something with a state: how it goes on with one line, and what it shows of itself. */
export interface Machine<Machined> {
  begin(): Machined;
  step(now: Machined, words: Words): Machined;
  /** The authority that the last line granted or lengthened, if any. */
  granted(now: Machined): string | undefined;
  /** The blocks that a train is in, head first. */
  blocksOf(now: Machined, train: string): readonly string[];
  /** All that the future depends on, as text. */
  whole(now: Machined): string;
  /** What `rehearse` answers of the state, as text. */
  shown(now: Machined): string;
}

export interface Tiny {
  readonly document: RailroadDocument;
  readonly opening: readonly Words[];
  readonly words: readonly Words[];
}

const move = (train: string, to: string): Words => ({ do: 'request-move', train, to, overhang: true });
const entered = (train: string, block: string): Words => ({ do: 'train-entered', train, block });
const cleared = (train: string, block: string): Words => ({ do: 'train-cleared', train, block });
const knob = (selector: string, position: string): Words => ({ do: 'turn-selector', selector, position });

/** One short train on a line of three blocks, one cab: grant, read-back, knobs, reports, annul. */
export const LINE: Tiny = {
  document: drawn({
    name: 'three blocks in a line',
    edges: ['e1 n1 g1 1000', 'e2 g1 g2 1000', 'e3 g2 n2 1000'],
    blocks: ['B1 e1 K1', 'B2 e2 K2', 'B3 e3 K3'],
    dials: ['K1 off 1', 'K2 off 1', 'K3 off 1'],
    throttles: ['1 north 8'],
    trains: ['t1 400 2'],
  }),
  opening: [
    { do: 'open-session' },
    { do: 'assign-cab', cab: '1', person: 'Avery' },
    { do: 'place-train', train: 't1', edge: 'e1', toward: 'g1', cab: '1' },
    { do: 'start' },
  ],
  words: [
    move('t1', 'B2'),
    move('t1', 'B3'),
    { do: 'acknowledge', authority: 'a1' },
    knob('K1', '1'),
    knob('K2', '1'),
    entered('t1', 'B2'),
    entered('t1', 'B3'),
    cleared('t1', 'B1'),
    cleared('t1', 'B2'),
    { do: 'annul', authority: 'a1', why: 'because' },
  ],
};

/** Two trains of two cabs before one turnout: who gets the block behind it, and when the turnout may be thrown. */
export const FORK: Tiny = {
  document: drawn({
    name: 'two tracks into one',
    edges: ['e1 n1 g1 1000', 'e2 n2 g2 1000', 'e3 g1 T1 200', 'e4 g2 T1 200', 'e5 T1 n3 1000'],
    turnouts: ['T1 e5 e3 e4'],
    blocks: ['B1 e1 K1', 'B2 e2 K2', 'B3 e5 K3'],
    dials: ['K1 off 1', 'K2 off 2', 'K3 off 1 2'],
    throttles: ['1 north 8', '2 north 8'],
    trains: ['t1 400 2', 't2 400 2'],
  }),
  opening: [
    { do: 'open-session' },
    { do: 'assign-cab', cab: '1', person: 'Avery' },
    { do: 'assign-cab', cab: '2', person: 'Blake' },
    { do: 'place-train', train: 't1', edge: 'e1', toward: 'g1', cab: '1' },
    { do: 'place-train', train: 't2', edge: 'e2', toward: 'g2', cab: '2' },
    { do: 'start' },
  ],
  words: [
    move('t1', 'B3'),
    move('t2', 'B3'),
    { do: 'acknowledge', authority: 'a1' },
    { do: 'throw-turnout', turnout: 'T1', position: 'normal' },
    { do: 'throw-turnout', turnout: 'T1', position: 'reverse' },
    knob('K3', '1'),
    knob('K3', '2'),
    entered('t1', 'B3'),
    entered('t2', 'B3'),
    cleared('t1', 'B1'),
  ],
};

/**
 * The number of states that show themselves differently after exactly so many words, for each depth from 0.
 * Words that are refused are words all the same.
 */
export function reachCounts<Machined>(machine: Machine<Machined>, tiny: Tiny, depth: number): number[] {
  let front = [tiny.opening.reduce((now, words) => machine.step(now, words), machine.begin())];
  const counts: number[] = [];
  for (let far = 0; ; far += 1) {
    counts.push(new Set(front.map((now) => machine.shown(now))).size);
    if (far === depth) return counts;
    const next = new Map<string, Machined>();
    for (const now of front)
      for (const words of tiny.words) {
        const after = machine.step(now, words);
        next.set(machine.whole(after), after);
      }
    front = [...next.values()];
  }
}

/** Rules made wrong on purpose: a train that is forgotten behind its head; a grant that counts before it is read back. */
export const WRONG_RULES = ['forgetsTail', 'skipsReadBack'] as const;
export type WrongRule = (typeof WRONG_RULES)[number];

/** The same machine with a wrong rule: what the rule should have waited for is taken as said. */
export function bent<Machined>(machine: Machine<Machined>, rule: WrongRule): Machine<Machined> {
  return {
    ...machine,
    step: (now, words) => {
      const after = machine.step(now, words);
      if (rule === 'skipsReadBack') {
        const authority = machine.granted(after);
        return authority === undefined ? after : machine.step(after, { do: 'acknowledge', authority });
      }
      const train = words.train;
      if (words.do !== 'train-entered' || typeof train !== 'string') return after;
      const behind = machine.blocksOf(after, train).slice(1);
      return behind.reduce((one, block) => machine.step(one, cleared(train, block)), after);
    },
  };
}
