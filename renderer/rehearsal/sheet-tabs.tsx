/** The sheets of a rehearsal: the arrow keys go from one to the next. */
import type { KeyboardEvent } from 'react';

export const SHEETS = [
  { key: 'trains', says: 'Trains' },
  { key: 'plan', says: 'In which order' },
  { key: 'real', says: 'Make it real' },
  { key: 'ways', says: 'Which way' },
  { key: 'capacity', says: 'How many' },
  { key: 'happened', says: 'What happened' },
  { key: 'kept', says: 'Kept' },
] as const;
export type SheetKey = (typeof SHEETS)[number]['key'];

interface SheetTabsProps {
  readonly sheet: SheetKey;
  /** The id of what they are shown in. */
  readonly shownIn: string;
  /** How many there are of what a sheet lists. */
  readonly counts: Readonly<Partial<Record<SheetKey, number>>>;
  readonly onSheet: (sheet: SheetKey) => void;
}

export function SheetTabs({ sheet, shownIn, counts, onSheet }: SheetTabsProps) {
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    const place = SHEETS.findIndex(({ key }) => key === sheet);
    const to = {
      ArrowRight: (place + 1) % SHEETS.length,
      ArrowLeft: (place + SHEETS.length - 1) % SHEETS.length,
      Home: 0,
      End: SHEETS.length - 1,
    }[event.key];
    const next = to === undefined ? undefined : SHEETS[to];
    if (to === undefined || next === undefined) return;
    event.preventDefault();
    onSheet(next.key);
    event.currentTarget.querySelectorAll('button')[to]?.focus();
  };
  return (
    <div role="tablist" aria-label="Sheets" className="rehearsal-tabs" onKeyDown={onKeyDown}>
      {SHEETS.map(({ key, says }) => (
        <button
          key={key}
          type="button"
          role="tab"
          className="rehearsal-tab"
          aria-selected={sheet === key}
          aria-controls={shownIn}
          onClick={() => onSheet(key)}
        >
          {says}
          {(counts[key] ?? 0) > 0 ? ` (${counts[key]})` : ''}
        </button>
      ))}
    </div>
  );
}
