/** The entries round the moment shown, in words; pressing one goes there. */
import { useEffect, useRef } from 'react';
import { eventWords } from '../../shared-model/logbook/event-words.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { useConsole } from '../console/use-console.tsx';
import { momentText } from './moment-text.ts';

/** Entries drawn before and after the moment; a whole evening would be too much to draw at each step. */
export const AROUND = 40;

const OUTCOME_WORDS = { done: '', refused: 'REFUSED', alarm: 'ALARM' } as const;

interface EntryListProps {
  readonly railroad: Railroad;
  readonly state: SessionState;
  /** Those round the moment. */
  readonly events: readonly SessionEvent[];
  readonly openedAt: string;
  readonly position: number;
  readonly onGo: (position: number) => void;
}

export function EntryList({ railroad, state, events, openedAt, position, onGo }: EntryListProps) {
  const list = useRef<HTMLOListElement>(null);
  const lengths = useConsole((store) => store.settings.lengths);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the current entry is another one at each position
  useEffect(() => {
    list.current?.querySelector('[aria-current]')?.scrollIntoView({ block: 'center' });
  }, [position]);
  return (
    <section className="replay-entries" aria-label="Entries">
      <ol ref={list}>
        {events.map((event) => {
          const at = event.entry;
          return (
            <li key={event.entry} data-outcome={event.outcome} data-later={at > position || undefined}>
              <button
                type="button"
                aria-current={at === position ? 'step' : undefined}
                onClick={() => onGo(at)}
              >
                <span className="quiet">
                  {event.entry} · {momentText(openedAt, event.at)}
                  {event.impliedBy === undefined ? '' : ' · inferred'}
                </span>
                <span>
                  {event.outcome === 'done' ? null : <strong>{OUTCOME_WORDS[event.outcome]} </strong>}
                  {eventWords(railroad, state, event, lengths)}
                </span>
                {event.reasons.map((reason) => (
                  <span key={`${reason.code} ${reason.about.join(' ')}`} className="fine">
                    {reason.code}: {reason.says}
                  </span>
                ))}
              </button>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
