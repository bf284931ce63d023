/** `cabward demo`: an invented evening on the demo railroad, through the rules and into a log; then its report. */
import { randomUUID } from 'node:crypto';
import { demoEvening } from '../../shared-model/demo/evening.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { rfc3339, systemClock } from '../host/clock.ts';
import { openStorage } from '../host/open-storage.ts';
import { recordEvening } from '../host/record-evening.ts';
import { type Answer, inputError } from './answer.ts';
import { readNumber } from './number-option.ts';
import { report } from './report.ts';

const SEED = { least: 0, most: 4_294_967_295, whole: true, unit: 'an evening' } as const;

/** Records the demo evening as held just now, and reports it. */
export function demo(options: {
  readonly seed?: string | undefined;
  readonly log?: string | undefined;
}): Answer {
  const seed = options.seed === undefined ? undefined : readNumber('--seed', options.seed, SEED);
  if (seed?.ok === false) return inputError(seed.says);
  const inputs = demoEvening(seed?.value);
  const opened = openStorage(options.log, rfc3339(systemClock), () => undefined);
  if (opened.kind === 'cannot') return inputError(opened.problem.says);
  if (opened.kind === 'already-running')
    return inputError(`${opened.says} End it first, or name another log with --log.`);
  const { storage, file, close } = opened.opened;
  const lasts = inputs.at(-1)?.at ?? 0;
  const recorded = recordEvening(storage, {
    document: demoRailroad,
    inputs,
    uid: randomUUID(),
    openedAt: new Date(systemClock.wall() - lasts * 1000).toISOString(),
    name: 'Demo evening',
  });
  close();
  return recorded.ok ? report(String(recorded.value), { log: file }) : inputError(recorded.problem.says);
}
