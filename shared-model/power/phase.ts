/** The phase check: what three meter readings between two supplies say, in one of five verdicts, and what to do about it. */
import type { Supply } from '../railroad/document.ts';
import type { Degrees, Volts } from '../units.ts';
import {
  type AngleInterval,
  angleInterval,
  DEFAULT_TOLERANCE_PERCENT,
  LEAST_TOLERANCE_VOLTS,
  type PhaseReadings,
} from './angle-interval.ts';
import { voltsText } from './figures.ts';

export const PHASE_VERDICTS = ['in-phase', 'reversed', 'different-legs', 'inconsistent', 'unclear'] as const;
export type PhaseVerdict = (typeof PHASE_VERDICTS)[number];
export type Wave = NonNullable<Supply['wave']>;

/** A plug or an outlet cannot make less than 60°; what remains below this is a difference of dials or wave forms. */
const IN_PHASE_BELOW: Degrees = 20;
const REVERSED_ABOVE: Degrees = 135;
/** The angles between two outlets on different legs of a three-phase supply: 120°, or 60° with a plug turned. */
const LEGS: readonly Degrees[] = [60, 120];
/** Below this a supply is as good as off, and its angle is noise. */
export const DEFAULT_MINIMUM_VOLTS: Volts = 1;
/** Of a supply that is off every angle is as good as another. */
const ANY_ANGLE: AngleInterval = { from: 0, to: 180 };
/** In phase, but with more than this across, the two are not matched. */
export const DEFAULT_MATCHED_VOLTS: Volts = 1;

export interface PhaseQuestion extends PhaseReadings {
  /** Percent of each reading (default 2, and ±0.2 V at the least; a meter that is not true-RMS: 10). */
  readonly tolerancePercent?: number;
  /** A supply that reads less is always unclear (default 1 V). */
  readonly minimumVolts?: Volts;
  /** Above this across, an in-phase pair is not matched (default 1 V). */
  readonly matchedVolts?: Volts;
  /** Wave form of each supply; not given: sine is assumed. */
  readonly waves?: readonly [Wave, Wave];
  /** The person says that both handles were full up. */
  readonly handlesFull?: boolean;
}

export interface PhaseAnswer {
  readonly verdict: PhaseVerdict;
  /** The angles that fit, 0° to 180°; both null where none does. */
  readonly degrees: { readonly from: Degrees | null; readonly to: Degrees | null };
  /** The verdict in words, with the volts across. */
  readonly says: string;
  /** What to do next; empty when all is well. */
  readonly remedy: string;
  readonly voltsAcross: Volts;
  /** In phase and with little across: a train may bridge the gap at these settings. */
  readonly matched: boolean;
}

export const REVERSED_REMEDY =
  'Unplug both. Turn one plug over if it is made to go in both ways, and mark it; else put both on one outlet strip; else, only for a supply with a single output, swap its two output leads. ' +
  'Never cut a blade or an earth pin, and never use an adapter for it. Check again; once phased, keep one strip and one master switch.';
export const LEGS_REMEDY =
  'No plug reversal cures that. Unplug both and put both on one outlet strip, then check again; until then no train may cross from one to the other.';

const angleText = ({ from, to }: AngleInterval): string =>
  `between ${from.toFixed(0)}° and ${to.toFixed(0)}°`;

function verdictOf(interval: AngleInterval): PhaseVerdict {
  if (interval.to < IN_PHASE_BELOW) return 'in-phase';
  if (interval.to === 180 && interval.from > REVERSED_ABOVE) return 'reversed';
  if (LEGS.some((leg) => interval.from <= leg && leg <= interval.to)) return 'different-legs';
  return 'unclear';
}

/** Whether the cosine law may be trusted for a verdict of different legs: on sine waves, or with both handles full up. */
function legsMayBeTold(question: PhaseQuestion): boolean {
  return question.handlesFull === true || (question.waves ?? []).every((wave) => wave === 'sine');
}

type Words = Pick<PhaseAnswer, 'says' | 'remedy'>;

function inconsistentWords({ voltsA, voltsB, voltsAcross }: PhaseReadings): Words {
  const bound =
    voltsAcross > voltsA + voltsB
      ? `at most ${voltsText(voltsA + voltsB)}, their sum`
      : `at least ${voltsText(Math.abs(voltsA - voltsB))}, their difference`;
  return {
    says: `Inconsistent: with ${voltsText(voltsA)} and ${voltsText(voltsB)} there must be ${bound}, across the hots, not ${voltsText(voltsAcross)}.`,
    remedy:
      'Look whether the commons are joined and both probes were on the hots; measure all three again, with nothing moved between the readings.',
  };
}

function unclearWords(question: PhaseQuestion, interval: AngleInterval): Words {
  const width = interval.to - interval.from;
  const says = `Unclear: any angle ${angleText(interval)} fits, and no verdict follows from that.`;
  if (width > 40) {
    return {
      says,
      remedy:
        "Turn both handles full up, so that the meter's error matters less, put a lamp on each output, and measure all three again.",
    };
  }
  const toleranceWord = question.tolerancePercent ?? DEFAULT_TOLERANCE_PERCENT;
  return {
    says,
    remedy: `Neither a plug nor an outlet makes such an angle. Set both handles full up, silence whistle, horn and bell, put a lamp on each output, and measure all three again with a true-RMS meter (±${toleranceWord} % was taken).`,
  };
}

function words(verdict: PhaseVerdict, question: PhaseQuestion, interval: AngleInterval): Words {
  const across = voltsText(question.voltsAcross);
  switch (verdict) {
    case 'in-phase':
      if (question.voltsAcross > (question.matchedVolts ?? DEFAULT_MATCHED_VOLTS))
        return {
          says: `In phase, not matched: the angle is ${angleText(interval)}, with ${across} across.`,
          remedy: 'Bring both handles to the same speed before a train bridges a gap between the two.',
        };
      return { says: `In phase: the angle is ${angleText(interval)}, with ${across} across.`, remedy: '' };
    case 'reversed':
      return {
        says: `Reversed: the angle is ${angleText(interval)}, with ${across} across; a train that bridges a gap between the two drives a short with all of it.`,
        remedy: REVERSED_REMEDY,
      };
    case 'different-legs':
      return {
        says: `On different legs of the mains: the angle is ${angleText(interval)}, with ${across} across.`,
        remedy: LEGS_REMEDY,
      };
    default:
      return unclearWords(question, interval);
  }
}

/** Why readings cannot be judged at all, whatever the angle; undefined where they can. */
function unfit(question: PhaseQuestion): Words | undefined {
  const minimum = question.minimumVolts ?? DEFAULT_MINIMUM_VOLTS;
  const low = (['voltsA', 'voltsB'] as const).filter((side) => question[side] < minimum);
  if (question.waves?.includes('dc'))
    return {
      says: 'Unclear: a direct-current supply has no phase.',
      remedy: 'Keep it off every gap that a train crosses from an alternating-current supply.',
    };
  if (low.length === 0) return undefined;
  const which = low.map((side) => (side === 'voltsA' ? 'A' : 'B')).join(' and ');
  return {
    says: `Unclear: ${which} ${low.length === 1 ? 'reads' : 'read'} below ${voltsText(minimum)}, which is as good as off.`,
    remedy: `Turn ${which} up full and measure all three again.`,
  };
}

/**
 * Judges a phase check between two supplies whose commons are joined.
 *
 * The angle comes from the law of cosines with the meter's tolerance carried through (see `angleInterval`); it holds for sine waves.
 * In phase: the interval ends below 20°. Reversed: it holds 180° and begins above 135°. Different legs: it holds 60° or 120°, and neither of the former;
 * on waves that are not sine only if both handles were full up, since a phase-fired 9 V against a full 18 V in phase reads 15.6 V across.
 *
 * @param question readings in volts RMS, finite and not negative (parsed at the border)
 * @returns the verdict with the interval in degrees, the words for it, and the remedy
 */
export function checkPhase(question: PhaseQuestion): PhaseAnswer {
  const { voltsAcross } = question;
  const interval = angleInterval(question, question.tolerancePercent);
  const unfitWords = unfit(question);
  if (unfitWords !== undefined) {
    return { verdict: 'unclear', degrees: interval ?? ANY_ANGLE, ...unfitWords, voltsAcross, matched: false };
  }
  if (interval === null) {
    const degrees = { from: null, to: null };
    return { verdict: 'inconsistent', degrees, ...inconsistentWords(question), voltsAcross, matched: false };
  }
  const degrees = interval;
  const verdict = verdictOf(interval);
  if (verdict === 'different-legs' && !legsMayBeTold(question)) {
    return {
      verdict: 'unclear',
      degrees,
      says: `Unclear: the readings look like an angle ${angleText(interval)}, but these supplies are not known to give a sine wave, and a chopped wave below full looks the same.`,
      remedy: 'Turn both handles full up and measure all three again.',
      voltsAcross,
      matched: false,
    };
  }
  const matched = verdict === 'in-phase' && voltsAcross <= (question.matchedVolts ?? DEFAULT_MATCHED_VOLTS);
  return { verdict, degrees, ...words(verdict, question, interval), voltsAcross, matched };
}

/** What the meter's tolerance was taken to be, in words for an answer. */
export function toleranceText(tolerancePercent: number = DEFAULT_TOLERANCE_PERCENT): string {
  return `±${tolerancePercent} % of each reading, at least ±${voltsText(LEAST_TOLERANCE_VOLTS)}`;
}
