/**
 * `cabward phase`: the verdict of one phase check, or of several combined.
 *
 * Exit status: 0 when everything asked about is in phase; 1 when a train must not cross (reversed, different legs) or nobody can say (inconsistent, unclear, unknown).
 */
import { supplyId } from '../../shared-model/ids.ts';
import { checkPhase, type PhaseAnswer, toleranceText } from '../../shared-model/power/phase.ts';
import { type PairCheck, phaseGroups } from '../../shared-model/power/phase-groups.ts';
import { READING, TOLERANCE } from '../../shared-model/power/ranges.ts';
import { type Answer, inputError } from './answer.ts';
import { readNumber, readNumbers } from './number-option.ts';

/** The options as they were typed. */
export interface PhaseOptions {
  readonly voltsA?: string | undefined;
  readonly voltsB?: string | undefined;
  readonly voltsAcross?: string | undefined;
  readonly tolerance?: string | undefined;
  /** Each `a:b:volts-a:volts-b:volts-across`; the latest of a pair counts. */
  readonly check?: readonly string[] | undefined;
}

const assumption = (tolerancePercent: number | undefined): string =>
  `Sine waves and ${toleranceText(tolerancePercent)} are assumed.`;

const inFull = ({ says, remedy }: PhaseAnswer): string => (remedy === '' ? says : `${says} ${remedy}`);

function readCheck(
  text: string,
): { readonly ok: true; readonly check: PairCheck } | { readonly ok: false; readonly says: string } {
  const parts = text.split(':');
  const [a, b, voltsA, voltsB, voltsAcross] = parts;
  if (parts.length !== 5 || !a || !b)
    return { ok: false, says: `--check: expected SUPPLY:SUPPLY:VOLTS:VOLTS:VOLTS, not "${text}"` };
  const [idA, idB] = [supplyId.safeParse(a), supplyId.safeParse(b)];
  if (!idA.success || !idB.success)
    return { ok: false, says: `--check: expected ids of at most 80 characters, not "${text}"` };
  if (a === b) return { ok: false, says: `--check: expected two different supplies, not "${text}"` };
  const read = readNumbers({
    voltsA: [`--check ${text}: volts of ${a}`, voltsA, READING],
    voltsB: [`--check ${text}: volts of ${b}`, voltsB, READING],
    voltsAcross: [`--check ${text}: volts across`, voltsAcross, READING],
  });
  return read.ok ? { ok: true, check: { a: idA.data, b: idB.data, ...read.values } } : read;
}

function combined(checks: readonly PairCheck[], tolerancePercent: number | undefined): Answer {
  const groups = phaseGroups(checks);
  const supplies = [...new Set(checks.flatMap(({ a, b }) => [a, b]))];
  const pairs = supplies.flatMap((a, index) =>
    supplies.slice(index + 1).map((b) => ({ a, b, relation: groups.relation(a, b) })),
  );
  const contradictions = groups.contradictions.map((knot) => knot.map(({ a, b }) => [a, b]));
  const lines = [
    ...pairs.map(({ a, b, relation }) => `${a} and ${b}: ${relation}.`),
    ...contradictions.map(
      (knot) =>
        `These checks contradict each other and count for nothing: ${knot.map((pair) => pair.join(' with ')).join(', ')}.`,
    ),
    assumption(tolerancePercent),
  ];
  return {
    exit: pairs.every(({ relation }) => relation === 'in-phase') ? 0 : 1,
    json: {
      checks: checks.map((check) => {
        const answer = checkPhase(check);
        return {
          a: check.a,
          b: check.b,
          verdict: answer.verdict,
          degrees: answer.degrees,
          says: inFull(answer),
        };
      }),
      pairs,
      contradictions,
      says: lines.join(' '),
    },
    text: lines.join('\n'),
  };
}

function single(options: PhaseOptions, tolerancePercent: number | undefined): Answer {
  const read = readNumbers({
    voltsA: ['--volts-a', options.voltsA, READING],
    voltsB: ['--volts-b', options.voltsB, READING],
    voltsAcross: ['--volts-across', options.voltsAcross, READING],
  });
  if (!read.ok) return inputError(read.says);
  const answer = checkPhase({
    ...read.values,
    ...(tolerancePercent === undefined ? {} : { tolerancePercent }),
  });
  const says = `${inFull(answer)} ${assumption(tolerancePercent)}`;
  return {
    exit: answer.verdict === 'in-phase' ? 0 : 1,
    json: { verdict: answer.verdict, degrees: answer.degrees, says },
    text: says,
  };
}

/** Answers `phase`; wrong readings are one line that says what was expected. */
export function phase(options: PhaseOptions): Answer {
  let tolerancePercent: number | undefined;
  if (options.tolerance !== undefined) {
    const tolerance = readNumber('--tolerance', options.tolerance, TOLERANCE);
    if (!tolerance.ok) return inputError(tolerance.says);
    tolerancePercent = tolerance.value;
  }
  if (options.check === undefined || options.check.length === 0) return single(options, tolerancePercent);
  if (options.voltsA !== undefined || options.voltsB !== undefined || options.voltsAcross !== undefined)
    return inputError('phase: expected either --check or --volts-a, --volts-b and --volts-across, not both');
  const checks: PairCheck[] = [];
  for (const text of options.check) {
    const read = readCheck(text);
    if (!read.ok) return inputError(read.says);
    checks.push({ ...read.check, ...(tolerancePercent === undefined ? {} : { tolerancePercent }) });
  }
  return combined(checks, tolerancePercent);
}
