/** What the planner's searches keep: the limit that they are given beside what a process of its own really had, where they need most. */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Bench } from '../../build/bench-report.ts';
import { USUAL_MEGABYTES } from '../../shared-model/planning/memory.ts';
import type { OneAnswer, OneQuestion } from './memory-of-one.ts';

const PROGRAM = fileURLToPath(new URL('memory-of-one.ts', import.meta.url));
const SECONDS = 60;
/** Allowed for the engine's own: code, and what is thrown away until it is collected. An allowance, not a measurement. */
const BESIDES = 192;

const QUESTIONS: readonly OneQuestion[] = [
  { ask: 'safe', blocks: 60, trains: 12, megabytes: 64, seconds: SECONDS },
  { ask: 'safe', blocks: 60, trains: 12, megabytes: USUAL_MEGABYTES, seconds: SECONDS },
  { ask: 'safe', blocks: 400, trains: 20, megabytes: USUAL_MEGABYTES, seconds: SECONDS },
  { ask: 'plan', blocks: 400, trains: 20, megabytes: USUAL_MEGABYTES, seconds: 10 },
  { ask: 'capacity', blocks: 100, trains: 8, megabytes: USUAL_MEGABYTES, seconds: 10 },
];

function asked(question: OneQuestion): OneAnswer {
  const told = execFileSync(process.execPath, [PROGRAM, JSON.stringify(question)], { encoding: 'utf8' });
  return JSON.parse(told) as OneAnswer;
}

export const run: Bench = (report) => {
  report.about(
    'memory: what a process has at most more than before its question, beside what the searches may keep',
  );
  const rows = QUESTIONS.map((question) => ({ question, answer: asked(question) }));
  report.table(
    rows.map(({ question: { ask, blocks, trains, megabytes }, answer: { said, before, atMost } }) => ({
      ask,
      blocks,
      trains,
      'may keep MB': megabytes,
      'before MB': Math.round(before),
      'more MB': Math.round(atMost - before),
      said,
    })),
  );
  for (const { question, answer } of rows)
    report.mustReach(
      `${question.ask} at ${question.blocks} blocks and ${question.trains} trains, megabytes more than before`,
      answer.atMost - answer.before,
      { atMost: question.megabytes + BESIDES },
    );
};
