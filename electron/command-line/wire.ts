/**
 * `cabward wire`: one gauge out and back: resistance, drop, short, and what is wrong with it.
 *
 * The supply's own impedance is not known here, so the short is the most that can flow. Exit status 1 when a finding is an error.
 */
import { shortAmps } from '../../shared-model/power/breaker.ts';
import { ampsText, runText, voltsText } from '../../shared-model/power/figures.ts';
import { CURRENT, GAUGE, RUN, VOLTAGE, WARMTH } from '../../shared-model/power/ranges.ts';
import { dropVolts, gaugeText, wireOhms } from '../../shared-model/power/wire.ts';
import { judgeDrop, judgeGauge, judgeTrip } from '../../shared-model/power/wire-findings.ts';
import type { Finding } from '../../shared-model/refusal.ts';
import { type Answer, inputError } from './answer.ts';
import { readNumbers } from './number-option.ts';

/** The options as they were typed; `run` is one way. */
export interface WireOptions {
  readonly awg?: string | undefined;
  readonly run?: string | undefined;
  readonly amps?: string | undefined;
  readonly volts?: string | undefined;
  readonly breaker?: string | undefined;
  readonly celsius?: string | undefined;
}

const DEFAULT_CELSIUS = '20';

/** Answers `wire`; wrong figures are one line that says what was expected. */
export function wire(options: WireOptions): Answer {
  const read = readNumbers({
    awg: ['--awg', options.awg, GAUGE],
    run: ['--run', options.run, RUN],
    amps: ['--amps', options.amps, CURRENT],
    volts: ['--volts', options.volts, VOLTAGE],
    celsius: ['--celsius', options.celsius ?? DEFAULT_CELSIUS, WARMTH],
  });
  if (!read.ok) return inputError(read.says);
  const guarded =
    options.breaker === undefined
      ? undefined
      : readNumbers({ amps: ['--breaker', options.breaker, CURRENT] });
  if (guarded?.ok === false) return inputError(guarded.says);
  const { awg, run, amps, volts, celsius } = read.values;
  const breaker = guarded?.values.amps;

  const oneWay = wireOhms({ awg, run }, celsius);
  const ohms = 2 * oneWay;
  const drop = dropVolts({ feederOhms: oneWay, returnOhms: oneWay }, amps);
  const short = shortAmps(volts, ohms);
  const judgements = [
    judgeGauge({ awg, run }, breaker, 'track', true),
    judgeDrop(drop, volts, amps),
    breaker === undefined ? null : judgeTrip(short, breaker),
  ].filter((judgement) => judgement !== null);
  const findings: Finding[] = judgements.map((judgement) => ({ ...judgement, about: [] }));
  findings.sort((one, other) => Number(other.severity === 'error') - Number(one.severity === 'error'));
  const dropPercent = (drop / volts) * 100;
  return {
    exit: findings.some(({ severity }) => severity === 'error') ? 1 : 0,
    json: { ohms, dropVolts: drop, dropPercent, shortAmps: short, findings },
    text: [
      `${gaugeText(awg)}, ${runText(run)} out and as much back, at ${celsius} °C: ${Number(ohms.toPrecision(4))} ohm.`,
      `At ${ampsText(amps)} it drops ${voltsText(drop)}, ${dropPercent.toFixed(2)} % of ${voltsText(volts)}.`,
      `A dead short at the far end draws at most ${ampsText(short)} (the supply's own impedance not counted).`,
      ...findings.map(({ severity, code, says, remedy }) => `${severity} ${code}: ${says} ${remedy}`),
    ].join('\n'),
  };
}
