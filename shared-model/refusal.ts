/** How the rules say no, and how the audit says what it found: values with codes, never exceptions. */

/** Why an order was refused. The order of the list is the order of the table in docs/rules.md. */
export const REFUSAL_CODES = [
  'not-now',
  'no-route',
  'out-of-service',
  'block-occupied',
  'block-owned',
  'block-disputed',
  'cab-not-wired',
  'hand-off-needed',
  'unphased-gap',
  'phase-unknown',
  'section-live',
  'turnout-locked',
  'crossing-taken',
  'second-train-live',
  'train-too-long',
  'overload',
  'gridlock-ahead',
  'bridged',
  'sweeps-live-position',
] as const;
export type RefusalCode = (typeof REFUSAL_CODES)[number];

/** What an observation that contradicts the rules raises; in the order in which several of one line are told. */
export const ALARM_CODES = [
  'entered-unauthorised',
  'entered-unlined',
  'not-adjacent',
  'still-under',
  'wrong-throttle',
  'turnout-moved',
  'second-train',
  'bridging',
  'unphased-ahead',
  'breaker',
  'off-the-rails',
] as const;
export type AlarmCode = (typeof ALARM_CODES)[number];

/** One reason: a stable code, the ids it concerns (in the order the rules fix), and a plain sentence. */
export interface Reason<Code extends string = RefusalCode | AlarmCode> {
  readonly code: Code;
  readonly about: readonly string[];
  readonly says: string;
}

export type Refusal = Reason<RefusalCode>;
export type Alarm = Reason<AlarmCode>;

/** What the audit may find, errors first in an answer. */
export const FINDING_CODES = [
  'broken-reference',
  'two-sources',
  'dead-track',
  'split-block',
  'feed-loop',
  'unreachable',
  'unphased-gap',
  'phase-unknown',
  'reversing-section',
  'short-block',
  'overload',
  'shorting-selector',
  'shared-return',
  'undersized-wire',
  'voltage-drop',
  'slow-trip',
  'one-cab-block',
] as const;
export type FindingCode = (typeof FINDING_CODES)[number];
export const SEVERITIES = ['error', 'warning', 'info'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** One audit finding: what, how bad, which things, a plain sentence, and what to do about it. */
export interface Finding {
  readonly code: FindingCode;
  readonly severity: Severity;
  readonly about: readonly string[];
  readonly says: string;
  readonly remedy: string;
}
