/** Long work in the real worker thread: one suite, run against each transport. */
import { expect, test } from 'vitest';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { witnessFault } from '../../shared-model/planning/checker/check-witness.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import type { PushName, PushOf, RequestOf } from '../../shared-model/wire/contract.ts';
import { capacityAnswer, planAnswer, plannerEnded, safeVerdict } from '../../shared-model/wire/planner.ts';
import { passingSidingExample } from './example.ts';
import { answered, type HostUnderTest } from './host-suite.ts';
import { demo, THREE_TRAINS } from './three-trains.ts';

const situation = parseSituation(demo, THREE_TRAINS);

type Job = RequestOf<'plan.start'>;
const job = (task: Job['task'], options: Job['options'] = {}): Job => ({
  task,
  document: demoRailroad,
  situation: THREE_TRAINS,
  options,
});

const PATIENCE_MS = 20_000;

/** Waits for a push about a job. */
async function pushOf<Name extends PushName>(
  host: HostUnderTest,
  name: Name,
  number: number,
): Promise<PushOf<Name>> {
  for (const until = performance.now() + PATIENCE_MS; performance.now() < until; ) {
    const found = host.pushes.find(
      ({ push, value }) => push === name && 'job' in value && value.job === number,
    );
    if (found !== undefined) return found.value as PushOf<Name>;
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  throw new Error(`no ${name} of job ${number} came`);
}
const started = async (host: HostUnderTest, request: Job) =>
  (await answered<{ job: number }>(host.call('plan.start', request))).job;

/** Declares the suite for one transport. */
export function plannerSuite(transport: string, open: () => Promise<HostUnderTest>): void {
  test(`${transport}: a safe state is answered with a witness that checks`, async () => {
    const host = await open();
    const { answer } = await pushOf(host, 'plan.done', await started(host, job('safe')));
    const { verdict, witness } = safeVerdict.parse(answer);
    expect(verdict).toBe('safe');
    if (!situation.ok) throw new Error(situation.malformed.says);
    expect(witnessFault(demo, situation.value, witness ?? [])).toBeNull();
  });

  test(`${transport}: how many trains can keep moving is answered with what stops one more`, async () => {
    const host = await open();
    const asked = {
      ...job('capacity', { limitSeconds: 15 }),
      document: passingSidingExample,
      situation: null,
    };
    const { answer } = await pushOf(host, 'plan.done', await started(host, asked));
    const { trains, bounds } = capacityAnswer.parse(answer);
    expect(trains).toBeGreaterThan(0);
    expect(bounds[0]?.trains).toBe(trains);
  });

  test(`${transport}: two jobs at once each tell of their progress, and end in plans that check`, async () => {
    const host = await open();
    const jobs = [
      await started(host, job('plan', { limitSeconds: 0.6, seed: 1 })),
      await started(host, job('plan', { limitSeconds: 0.6, seed: 2 })),
    ];
    expect(new Set(jobs).size).toBe(2);
    if (!situation.ok) throw new Error(situation.malformed.says);
    for (const number of jobs) {
      const { says, best } = await pushOf(host, 'plan.progress', number);
      expect(says).toMatch(/arrivals sum to [\d.]+ s/);
      expect(planFaults(demo, situation.value, planAnswer.parse(best), USUAL_OPTIONS)).toEqual([]);
      const answer = planAnswer.parse((await pushOf(host, 'plan.done', number)).answer);
      expect(answer.verdict).toBe('planned');
      expect(planFaults(demo, situation.value, answer, USUAL_OPTIONS)).toEqual([]);
    }
  });

  test(`${transport}: a cancelled job gives the best so far at once, and is no more`, async () => {
    const host = await open();
    const number = await started(host, job('plan', { limitSeconds: 3600, throwSeconds: 5 }));
    await pushOf(host, 'plan.progress', number);
    await answered(host.call('plan.cancel', { job: number }));
    const ended = plannerEnded.parse((await pushOf(host, 'plan.done', number)).answer);
    if (!('cancelled' in ended)) throw new Error('it was not cancelled');
    expect(planAnswer.parse(ended.best).verdict).toBe('planned');
    expect(await host.call('plan.cancel', { job: number })).toMatchObject({
      ok: false,
      problem: { kind: 'not-found' },
    });
  });

  test.each<[string, object, string]>([
    [
      'a destination that does not exist',
      { situation: { trains: [{ ...THREE_TRAINS.trains[0], to: 'B99' }] } },
      '$.situation.trains[0].to',
    ],
    [
      'two trains in one block',
      {
        situation: {
          trains: [THREE_TRAINS.trains[0], { ...THREE_TRAINS.trains[2], edge: 'e11', toward: 'g1' }],
        },
      },
      '$.situation.trains[1]',
    ],
    [
      'a train that does not fit',
      { situation: { trains: [{ train: 't41', edge: 'e50', toward: 'g22', cab: '1' }], turnouts: {} } },
      '$.situation.trains[0]',
    ],
    [
      'contradictory selectors',
      { situation: { ...THREE_TRAINS, selectors: { K5: '2' } } },
      '$.situation.selectors.K5',
    ],
    ['an option that is none', { options: { wheels: 8 } }, '$.options.wheels'],
    [
      'reversals in a plan',
      { task: 'plan', situation: { ...THREE_TRAINS, reversals: true } },
      '$.situation.reversals',
    ],
  ])(`${transport}: %s is answered with its place before a thread is started`, async (_, part, path) => {
    const host = await open();
    expect(await host.call('plan.start', { ...job('safe'), ...part })).toMatchObject({
      ok: false,
      problem: { kind: 'bad-input', path, says: expect.stringMatching(/^expected /) },
    });
  });
}
