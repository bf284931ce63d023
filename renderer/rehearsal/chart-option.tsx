/** One thing of the chart that can be looked at: by pointer, or as the one that the arrow keys have come to. */
import type { ReactNode } from 'react';
import type { ChartItem } from './chart-items.ts';

/** What is looked at in a chart. */
export interface Looking {
  readonly items: ReadonlyMap<string, ChartItem>;
  readonly looked: string | null;
  /** The id of the element that stands for an item. */
  readonly idOf: (key: string) => string;
  readonly look: (key: string | null) => void;
}

interface ChartOptionProps {
  readonly id: string;
  readonly looking: Looking;
  readonly hue?: number;
  readonly className?: string;
  readonly children: ReactNode;
}

export function ChartOption({ id, looking, hue, className = '', children }: ChartOptionProps) {
  return (
    <g
      id={looking.idOf(id)}
      role="option"
      aria-selected={looking.looked === id}
      aria-label={looking.items.get(id)?.says}
      className={`chart-item ${className}`}
      data-hue={hue}
      onPointerEnter={() => looking.look(id)}
      onPointerLeave={() => looking.look(null)}
    >
      {children}
    </g>
  );
}
