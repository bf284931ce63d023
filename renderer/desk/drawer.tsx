/** What is offered for the thing that was touched: it lies over the strips of the cabs and never over the board, NEXT or CALL ALL STOP. */
import type { ReactNode } from 'react';
import { Act } from '../parts/act.tsx';
import { Dialog } from '../parts/dialog.tsx';
import type { OfferGroup } from './offers/offer-group.ts';
import type { Option } from './option.ts';

interface DrawerProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

export function Drawer({ title, onClose, children }: DrawerProps) {
  return (
    <div className="desk-drawer">
      <Dialog title={title} onClose={onClose}>
        <Act kind="calm" onPress={onClose}>
          Close
        </Act>
        <div className="desk-drawer-body">{children}</div>
      </Dialog>
    </div>
  );
}

interface GroupsProps {
  readonly groups: readonly OfferGroup[];
  readonly onTake: (option: Option) => void;
}

export function OfferGroups({ groups, onTake }: GroupsProps) {
  return (
    <>
      {groups.map(({ title, options }) => (
        <section key={title} className="desk-offers" aria-label={title}>
          <h3>{title}</h3>
          <div className="desk-options">
            {options.map((option) => (
              <Act key={option.says} kind="calm" onPress={() => onTake(option)}>
                {option.says}
              </Act>
            ))}
          </div>
        </section>
      ))}
    </>
  );
}
