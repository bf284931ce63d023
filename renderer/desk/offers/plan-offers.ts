/** What can be done with the plan that is carried out, as a whole. */
import type { DeskSource, PlanAct } from '../desk-source.ts';
import type { Option } from '../option.ts';
import { filled, type OfferGroup } from './offer-group.ts';

const does = (says: string, act: PlanAct): Option => ({ says, does: { kind: 'plan', does: act } });

export function planOffers({ plan, planAside = null }: DeskSource): readonly OfferGroup[] {
  const again = does('plan again from here', 'again');
  return filled([
    {
      title: 'The plan',
      options:
        plan != null
          ? [does(`put ${plan.name} aside`, 'aside'), again]
          : planAside === null
            ? []
            : [does(`go on with ${planAside}`, 'on'), again],
    },
  ]);
}
