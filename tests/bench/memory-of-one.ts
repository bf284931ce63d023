/** One question to the planner in a process of its own, and what the process had at most: started by `memory.bench.ts`. */
import { drawsFrom } from '../../shared-model/chance.ts';
import { capacity } from '../../shared-model/planning/capacity.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import { stationCases } from './station-cases.ts';

export interface OneQuestion {
  readonly ask: 'safe' | 'plan' | 'capacity';
  readonly blocks: number;
  readonly trains: number;
  readonly megabytes: number;
  readonly seconds: number;
}
export interface OneAnswer {
  readonly said: string;
  /** Megabytes of the process, before the question and at most. */
  readonly before: number;
  readonly atMost: number;
}

const MEGABYTE = 1024 * 1024;
const question = JSON.parse(process.argv[2] ?? '') as OneQuestion;
const { blocks, trains, seconds } = question;
const [one] = stationCases(blocks, trains, 1);
if (one === undefined) throw new Error(`no case of ${blocks} blocks and ${trains} trains`);
const { railroad, situation } = one;
const before = process.memoryUsage().rss / MEGABYTE;
const end = performance.now() + seconds * 1000;
const bytes = question.megabytes * MEGABYTE;
const shouldStop = () => performance.now() > end;

function answered(): string {
  switch (question.ask) {
    case 'safe': {
      const { verdict, states, isFull } = safe(railroad, situation, { states: 1e9, bytes, shouldStop });
      return `${verdict}, ${states} states${isFull === true ? ', full' : ''}`;
    }
    case 'plan': {
      const { verdict, total } = plan(railroad, situation, USUAL_OPTIONS, {
        draw: drawsFrom(1),
        shouldStop,
        bytes,
      });
      return `${verdict}, ${total ?? '-'}`;
    }
    case 'capacity':
      return `${capacity(railroad, { seed: 1, shouldStop, bytes }).trains} trains`;
  }
}
const said = answered();
const answer: OneAnswer = { said, before, atMost: process.resourceUsage().maxRSS / 1024 };
console.log(JSON.stringify(answer));
