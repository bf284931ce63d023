/** A row that opens to what can be changed about one thing: its name and a line about it stay in sight. */
import { type ReactNode, useId } from 'react';

interface DisclosureProps {
  readonly id: string;
  readonly mark: string;
  readonly name: string;
  /** One line: what is to know while it is closed. */
  readonly says: string;
  readonly wrong?: boolean;
  readonly open: boolean;
  readonly onToggle: () => void;
  readonly children: ReactNode;
}

export function Disclosure({ id, mark, name, says, wrong, open, onToggle, children }: DisclosureProps) {
  const body = useId();
  return (
    <li className="wiring-thing" data-thing={id} data-open={open || undefined}>
      <button
        type="button"
        className="wiring-row"
        aria-expanded={open}
        aria-controls={open ? body : undefined}
        onClick={onToggle}
      >
        <span className="wiring-mark">{mark}</span>
        <span>
          {name}
          {wrong === true ? <strong> (wrong)</strong> : null}
          <span className="quiet wiring-line">{says}</span>
        </span>
      </button>
      {open ? (
        <div id={body} className="wiring-body">
          {children}
        </div>
      ) : null}
    </li>
  );
}
