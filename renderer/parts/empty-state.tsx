/** What a screen shows when it has nothing to show: why, and what to do first. */
import type { ReactNode } from 'react';
import './empty-state.css';

interface EmptyStateProps {
  readonly title: string;
  /** One or two sentences: why it is empty, and what to do. */
  readonly says: string;
  /** The acts that lead on. */
  readonly children?: ReactNode;
}

export function EmptyState({ title, says, children }: EmptyStateProps) {
  return (
    <section className="empty-state" aria-label={title}>
      <h2>{title}</h2>
      <p>{says}</p>
      {children === undefined ? null : <div className="empty-state-acts">{children}</div>}
    </section>
  );
}
