/** Audit of how throttles can be tied together by the switches or the return: `shorting-selector` and `shared-return`. */
import type { ThrottleId } from '../ids.ts';
import type { RailroadDocument, Selector } from '../railroad/document.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Finding } from '../refusal.ts';

type Neighbours = readonly [ThrottleId, ThrottleId];

/** Two different throttles side by side on the dial, if there are any; a dial without stops goes round. */
function neighbours({ positions, stops }: Selector): Neighbours | undefined {
  const round = stops ? positions : [...positions, positions[0] ?? null];
  for (const [index, position] of round.entries()) {
    const next = round[index + 1];
    if (position === null || position === 'off' || next === undefined || next === null || next === 'off')
      continue;
    if (position !== next) return [position, next];
  }
  return undefined;
}

function auditSelector(railroad: Railroad, selector: Selector): readonly Finding[] {
  const pair = neighbours(selector);
  const contacts = selector.contacts ?? 'unknown';
  if (pair === undefined || contacts === 'break-before-make') return [];
  const [one, other] = pair.map((throttle) => railroad.throttles.get(throttle)?.name ?? throttle);
  const shorting = contacts === 'make-before-break';
  return [
    {
      code: 'shorting-selector',
      severity: shorting ? 'error' : 'info',
      about: [selector.id, ...pair],
      says: shorting
        ? `Selector ${selector.name} makes before it breaks, so turning it ties ${one} and ${other} together.`
        : `Whether selector ${selector.name} breaks before it makes is not known; if it does not, turning it ties ${one} and ${other} together.`,
      remedy: shorting
        ? `Fit a switch for ${selector.name} that breaks before it makes, or leave an off or unwired position between two throttles.`
        : 'Look at its markings or try it with a meter, with all power off, and enter what it is.',
    },
  ];
}

/**
 * On two-rail DC each throttle reverses its own outputs, so two of them on one common rail short as soon as they stand against each other,
 * unless their supplies have nothing else in common.
 */
function auditReturn(document: RailroadDocument): readonly Finding[] {
  if (document.system !== 'two-rail-dc' || document.commonBus === undefined) return [];
  const joined = document.supplies.filter((supply) => supply.isolated !== true);
  const throttles = document.throttles.filter((throttle) =>
    joined.some((supply) => supply.id === throttle.supply),
  );
  if (throttles.length < 2) return [];
  const supplies = joined.filter((supply) => throttles.some((throttle) => throttle.supply === supply.id));
  return [
    {
      code: 'shared-return',
      severity: 'error',
      about: [...supplies.map((supply) => supply.id), ...throttles.map((throttle) => throttle.id)],
      says: `${throttles.map((throttle) => throttle.name).join(', ')} share one common rail, and ${supplies.map((supply) => supply.name).join(', ')} ${supplies.length === 1 ? 'is' : 'are'} not said to be isolated: one set against another is a short.`,
      remedy:
        'Give each of these throttles a supply with windings of its own and mark it as isolated, or cut both rails at every gap.',
    },
  ];
}

/** Findings about selectors that short and throttles that share a return. */
export function auditSwitching(railroad: Railroad): readonly Finding[] {
  return [
    ...railroad.document.selectors.flatMap((selector) => auditSelector(railroad, selector)),
    ...auditReturn(railroad.document),
  ];
}
