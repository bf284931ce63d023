/** Audit of currents against limits: `overload`. */
import type { Train } from '../railroad/document.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Finding } from '../refusal.ts';
import type { Amps } from '../units.ts';
import { ampsText } from './figures.ts';
import { isOver, supplyLimit, worstOfSupply } from './load.ts';

function hungriest(trains: readonly Train[]): Train | undefined {
  return trains.reduce<Train | undefined>(
    (most, train) => (most === undefined || train.amps > most.amps ? train : most),
    undefined,
  );
}

const over = (thing: string, other: readonly string[], says: string, remedy: string): Finding => ({
  code: 'overload',
  severity: 'warning',
  about: [thing, ...other],
  says,
  remedy,
});

/** Findings about what throttles, selector contacts and supplies are asked to carry; as much as the limit is not more. */
export function auditLoad(railroad: Railroad): readonly Finding[] {
  const { trains, throttles, selectors, supplies } = railroad.document;
  const train = hungriest(trains);
  if (train === undefined) return [];
  const alone = (thing: { id: string }, what: string, limit: Amps, remedy: string): Finding[] =>
    isOver(train.amps, limit)
      ? [
          over(
            thing.id,
            [train.id],
            `${train.name} draws ${ampsText(train.amps)}, ${what} carries ${ampsText(limit)}.`,
            remedy,
          ),
        ]
      : [];
  return [
    ...throttles.flatMap((throttle) =>
      alone(
        throttle,
        `throttle ${throttle.name}`,
        throttle.maxAmps,
        `Keep ${train.name} off ${throttle.name}, or shorten the train.`,
      ),
    ),
    ...selectors
      .filter(({ positions }) => positions.some((position) => position !== null && position !== 'off'))
      .flatMap((selector) =>
        alone(
          selector,
          `a contact of selector ${selector.name}`,
          selector.contactAmps,
          `Fit a switch with heavier contacts for ${selector.name}; a contact that burns may stick where it stands.`,
        ),
      ),
    ...supplies.flatMap((supply) => {
      const worst = worstOfSupply(railroad, supply.id);
      const limit = supplyLimit(supply);
      if (!isOver(worst.amps, limit)) return [];
      const names = worst.trains.map((id) => railroad.trains.get(id)?.name ?? id).join(', ');
      const rating = `${supply.estimated === true ? 'about ' : ''}${supply.ratedVa} VA at ${supply.maxVolts} V`;
      return [
        over(
          supply.id,
          worst.trains,
          `${names}, one on each throttle of ${supply.name}, draw ${ampsText(worst.amps)} together; ${rating} is ${ampsText(limit)}.`,
          `Run fewer of them on ${supply.name} at once, or move a throttle to another supply.`,
        ),
      ];
    }),
  ];
}
