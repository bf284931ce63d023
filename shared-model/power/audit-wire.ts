/** Audit of feeders and the common bus: `undersized-wire`, `voltage-drop` and `slow-trip`. */
import type { Block, Supply } from '../railroad/document.ts';
import { feedOf, suppliesOf } from '../railroad/feed.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { type Finding, SEVERITIES } from '../refusal.ts';
import type { Amps, Millimetres, Ohms } from '../units.ts';
import { shortAmps } from './breaker.ts';
import { ampsText } from './figures.ts';
import { railRuns } from './rail-run.ts';
import { dropVolts, piecesOf, wireOhms } from './wire.ts';
import { judgeDrop, judgeGauge, judgeTrip, type WireJudgement } from './wire-findings.ts';

type Feeder = Block['feeders'][number];

function supplies(railroad: Railroad, block: Block): readonly Supply[] {
  const throttles = feedOf(railroad, block.id)?.throttles ?? [];
  return suppliesOf(railroad, throttles).flatMap((id) => railroad.supplies.get(id) ?? []);
}

/** Of what is wrong with each supply, the gravest, with all supplies it holds for; nothing where all is well. */
function worst(
  judged: readonly {
    readonly supply: Supply;
    readonly judgement: WireJudgement | null;
    readonly weight: number;
  }[],
  about: readonly string[],
  says: (judgement: WireJudgement, supply: Supply) => string,
): readonly Finding[] {
  const bad = judged.flatMap(({ supply, judgement, weight }) =>
    judgement === null ? [] : [{ supply, judgement, weight }],
  );
  const gravest = SEVERITIES.find((severity) => bad.some((each) => each.judgement.severity === severity));
  const such = bad.filter((each) => each.judgement.severity === gravest);
  const [first] = [...such].sort((one, other) => other.weight - one.weight);
  if (first === undefined) return [];
  const { judgement, supply } = first;
  return [
    {
      code: judgement.code,
      severity: judgement.severity,
      about: [...about, ...such.map((each) => each.supply.id)],
      says: says(judgement, supply),
      remedy: judgement.remedy,
    },
  ];
}

/** The current of the hungriest train, its engine stalled if that is known; undefined without a train. */
function hungriestAmps(railroad: Railroad): Amps | undefined {
  const amps = railroad.document.trains.map((train) => train.stallAmps ?? train.amps);
  return amps.length === 0 ? undefined : Math.max(...amps);
}

function notCounted(railroad: Railroad): string {
  const { commonBus, railOhmsPerMetre } = railroad.document;
  const missing = [
    ...(commonBus === undefined ? ['the return'] : []),
    ...(railOhmsPerMetre === undefined ? ['rail and joints'] : []),
  ];
  return missing.length === 0 ? '' : ` (${missing.join(', ')} not counted)`;
}

/** The loop through a feeder at 20 °C: feeder out, rail where its resistance is given, and the bus back where there is one. */
function loop(
  railroad: Railroad,
  feeder: Feeder,
  railRun: Millimetres,
): { feederOhms: Ohms; returnOhms: Ohms } {
  const { commonBus, railOhmsPerMetre } = railroad.document;
  return {
    feederOhms: wireOhms(feeder.wire ?? []) + ((railOhmsPerMetre ?? 0) * railRun) / 1000,
    returnOhms: commonBus === undefined ? 0 : wireOhms(commonBus),
  };
}

function auditFeeder(
  railroad: Railroad,
  block: Block,
  feeder: Feeder,
  railRun: Millimetres,
): readonly Finding[] {
  if (feeder.wire === undefined) return [];
  const pieces = piecesOf(feeder.wire);
  const about = [block.id, feeder.edge];
  const fed = supplies(railroad, block);
  const place = `${block.name}, feeder at ${feeder.edge}${feeder.terminal === undefined ? '' : ` (terminal ${feeder.terminal})`}`;
  const circuit = loop(railroad, feeder, railRun);
  const amps = hungriestAmps(railroad);
  const withoutCounting = notCounted(railroad);
  return [
    ...pieces.flatMap((piece, index) =>
      worst(
        fed.map((supply) => ({
          supply,
          judgement: judgeGauge(
            piece,
            supply.breakerAmps,
            supply.use ?? 'track',
            index === pieces.length - 1,
          ),
          weight: supply.breakerAmps,
        })),
        about,
        ({ says }, supply) => `${place}, from ${supply.name}: ${says}`,
      ),
    ),
    ...worst(
      fed.map((supply) => {
        const drop = amps === undefined ? 0 : dropVolts(circuit, amps);
        return {
          supply,
          judgement: judgeDrop(drop, supply.maxVolts, amps ?? 0),
          weight: drop / supply.maxVolts,
        };
      }),
      about,
      ({ says }, supply) => `${place}, from ${supply.name}: ${says}${withoutCounting}`,
    ),
    ...worst(
      fed.map((supply) => {
        const wired = circuit.feederOhms + circuit.returnOhms;
        const short = shortAmps(supply.maxVolts, supply.impedanceOhms + wired);
        return {
          supply,
          judgement: judgeTrip(short, supply.breakerAmps),
          weight: supply.breakerAmps / short,
        };
      }),
      about,
      ({ says }, supply) => `${place}, from ${supply.name}: ${says}${withoutCounting}`,
    ),
  ];
}

/** The shared return, against each supply that sends current back through it. */
function auditBus(railroad: Railroad): readonly Finding[] {
  const { commonBus, throttles, supplies: all } = railroad.document;
  if (commonBus === undefined) return [];
  const used = all.filter((supply) => throttles.some((throttle) => throttle.supply === supply.id));
  return worst(
    used.map((supply) => ({
      supply,
      judgement: judgeGauge(commonBus, supply.breakerAmps, supply.use ?? 'track', false),
      weight: supply.breakerAmps,
    })),
    [],
    ({ says }, supply) => {
      const together = used.reduce((sum, each) => sum + each.breakerAmps, 0);
      const sharing =
        used.length > 1 ? ` With all supplies on it, it may come to ${ampsText(together)}.` : '';
      return `The common bus, with the return of ${supply.name}: ${says}${sharing}`;
    },
  );
}

/** Findings about wire. Feeders without `wire`, and a railroad without `commonBus`, are not judged for what is not given. */
export function auditWire(railroad: Railroad): readonly Finding[] {
  return [
    ...auditBus(railroad),
    ...railroad.document.blocks.flatMap((block) => {
      const runs = railRuns(railroad, block);
      return block.feeders.flatMap((feeder) =>
        auditFeeder(railroad, block, feeder, runs.get(feeder.edge) ?? 0),
      );
    }),
  ];
}
