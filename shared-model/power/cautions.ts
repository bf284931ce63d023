/**
 * Cautions in the usual words of the trade, each with the steps at which it has to be read.
 * The console is advisory: these defer to local codes and to licensed people, see docs/guide/safety.md.
 */

export const CAUTION_STEPS = ['phase-check', 'remedy', 'wiring', 'evening', 'print'] as const;
export type CautionStep = (typeof CAUTION_STEPS)[number];

export interface Caution {
  readonly id: string;
  readonly says: string;
  readonly at: readonly CautionStep[];
}

export const CAUTIONS: readonly Caution[] = [
  {
    id: 'mains',
    says: 'Mains wiring is for licensed people and local codes. Nothing here replaces them.',
    at: ['wiring', 'remedy', 'print'],
  },
  {
    id: 'ground-fault',
    says: 'Plug the whole railroad into a ground-fault protected outlet.',
    at: ['phase-check', 'wiring', 'print'],
  },
  {
    id: 'never-open',
    says: 'Never open a transformer or a power pack.',
    at: ['phase-check', 'remedy', 'wiring', 'print'],
  },
  {
    id: 'no-earth',
    says: 'Never tie the track common to mains earth.',
    at: ['wiring', 'remedy', 'print'],
  },
  {
    id: 'back-feed',
    says: 'Two supplies tied through a gap feed back: the prongs of an unplugged one can carry mains voltage, and an electronic throttle may be destroyed.',
    at: ['phase-check', 'remedy', 'print'],
  },
  {
    id: 'unplug-all',
    says: 'Unplug all supplies before rewiring; never plug in one alone while others are tied to the same track.',
    at: ['phase-check', 'remedy', 'wiring', 'print'],
  },
  {
    id: 'double-voltage',
    says: 'Unphased supplies put up to twice their voltage between rails that a hand or a lighted car bridges. Keep hands and trains off the gaps.',
    at: ['phase-check', 'remedy', 'print'],
  },
  {
    id: 'hot-wire',
    says: 'A hot wire, or a breaker that will not hold, means: switch off and look. Never fit a larger breaker or fuse for it.',
    at: ['wiring', 'evening', 'print'],
  },
  {
    id: 'master-switch',
    says: 'The console cannot cut power. Know the master switch, and show it to everybody.',
    at: ['phase-check', 'wiring', 'evening', 'print'],
  },
  {
    id: 'unattended',
    says: 'Do not leave the railroad powered alone.',
    at: ['evening', 'print'],
  },
  {
    id: 'advisory',
    says: 'The console is advisory: it computes from what was entered and measured, and senses nothing.',
    at: ['phase-check', 'wiring', 'evening', 'print'],
  },
];

/**
 * The cautions of one step, in their order.
 *
 * @param masterSwitch where the power is cut, if the railroad says so
 */
export function cautionsAt(step: CautionStep, masterSwitch?: string): readonly Caution[] {
  return CAUTIONS.filter((caution) => caution.at.includes(step)).map((caution) =>
    caution.id === 'master-switch' && masterSwitch !== undefined
      ? {
          ...caution,
          says: `The console cannot cut power. Know the master switch (${masterSwitch}), and show it to everybody.`,
        }
      : caution,
  );
}
