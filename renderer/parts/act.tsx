/** Something that is pressed: an act of the evening (56 px at least), or a control that is used at leisure (44 px). */
import type { ReactNode } from 'react';
import './act.css';

interface ActProps {
  readonly children: ReactNode;
  readonly onPress: () => void;
  /** `act` for what is done while trains move; `calm` for the rest; `stop` for the words that stop everything. */
  readonly kind?: 'act' | 'calm' | 'stop';
  /** Why it cannot be pressed now. It stays reachable, so that the reason can be read; pressing does nothing. */
  readonly notNow?: string | undefined;
  /** The key that does the same, shown small beside the words. */
  readonly keyName?: string | undefined;
  /** What a screen reader says instead of the words shown. */
  readonly label?: string | undefined;
  /** For acts that are on or off. */
  readonly pressed?: boolean | undefined;
  readonly expanded?: boolean | undefined;
}

export function Act({
  children,
  onPress,
  kind = 'act',
  notNow,
  keyName,
  label,
  pressed,
  expanded,
}: ActProps) {
  const barred = notNow !== undefined;
  return (
    <button
      type="button"
      className="act"
      data-kind={kind}
      aria-pressed={pressed}
      aria-expanded={expanded}
      aria-disabled={barred || undefined}
      title={notNow}
      onClick={barred ? undefined : onPress}
    >
      <span aria-hidden={label === undefined ? undefined : true}>{children}</span>
      {label === undefined ? null : <span className="unseen">{label}</span>}
      {keyName === undefined ? null : <kbd>{keyName}</kbd>}
    </button>
  );
}
