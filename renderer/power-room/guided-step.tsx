/** One step of the guided check: its number, what it is, and why it has to wait if it does. */
import { type ReactNode, useId } from 'react';

interface GuidedStepProps {
  readonly number: number;
  readonly title: string;
  /** What has to be done first; its fields are not shown until then. */
  readonly waitsFor?: string | undefined;
  readonly done: boolean;
  readonly children: ReactNode;
}

export function GuidedStep({ number, title, waitsFor, done, children }: GuidedStepProps) {
  const heading = useId();
  return (
    <li
      className="guided-step"
      aria-labelledby={heading}
      data-waits={waitsFor === undefined ? undefined : true}
    >
      <h3 id={heading}>
        {number}. {title}
        <span className="quiet">{waitsFor === undefined && done ? ' – done' : ''}</span>
      </h3>
      {waitsFor === undefined ? children : <p className="quiet">{waitsFor}</p>}
    </li>
  );
}
