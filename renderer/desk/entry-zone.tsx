/** The entry line with what Enter would do, the drawers for hands without a keyboard, and CALL ALL STOP. */
import { type RefObject, useDeferredValue, useMemo } from 'react';
import { Act } from '../parts/act.tsx';
import { proposalWords } from './entry-line/try-out.ts';
import type { Desk } from './use-desk.ts';

interface EntryProps {
  readonly desk: Desk;
  readonly input: RefObject<HTMLInputElement | null>;
  readonly openDrawer: string | null;
  readonly onDrawer: (drawer: 'keys' | 'more') => void;
}

const SHOWN_COMPLETIONS = 4;

/** What Enter would do is tried when the letters are on the screen: typing never waits for it. */
function Hint({ desk }: Pick<EntryProps, 'desk'>) {
  const { completions, changeLine, context } = desk;
  const reading = useDeferredValue(desk.reading);
  const tried = useMemo(
    () => (reading.kind === 'one' ? proposalWords(context, context.state.at, reading.proposal) : null),
    [reading, context],
  );
  if (reading.kind === 'empty') return null;
  if (reading.kind === 'several') return <span>several fit: arrows and Enter, or touch one above</span>;
  if (tried !== null) return <span data-verdict={tried.verdict}>{tried.says}</span>;
  return (
    <>
      {completions.slice(0, SHOWN_COMPLETIONS).map(({ label, line }, index) => (
        <Act
          key={line}
          kind="calm"
          keyName={index === 0 ? 'Tab' : undefined}
          onPress={() => changeLine(line)}
        >
          {label}
        </Act>
      ))}
      {completions.length === 0 && reading.kind === 'expected' ? (
        <span className="quiet">{reading.says}</span>
      ) : null}
    </>
  );
}

export function EntryZone({ desk, input, openDrawer, onDrawer }: EntryProps) {
  return (
    <section className="desk-entry" data-zone="entry" aria-label="Entry">
      <label className="unseen" htmlFor="entry-line">
        Entry line
      </label>
      <input
        id="entry-line"
        ref={input}
        className="field-input desk-line"
        value={desk.line}
        autoComplete="off"
        spellCheck={false}
        placeholder="7 to quarry"
        readOnly={desk.locked}
        onChange={(event) => desk.changeLine(event.target.value)}
      />
      <div className="desk-hint" aria-live="polite">
        <Hint desk={desk} />
      </div>
      <Act kind="calm" onPress={() => onDrawer('keys')} expanded={openDrawer === 'keys'}>
        Keys
      </Act>
      <Act kind="calm" onPress={() => onDrawer('more')} expanded={openDrawer === 'more'}>
        More
      </Act>
      <Act kind="stop" onPress={() => desk.act('stop-all')} keyName="9">
        CALL ALL STOP
      </Act>
    </section>
  );
}
