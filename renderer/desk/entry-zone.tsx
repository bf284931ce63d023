/** The entry line with what Enter would do, the drawers for hands without a keyboard, and CALL ALL STOP. */
import { type RefObject, useMemo } from 'react';
import { Act } from '../parts/act.tsx';
import type { DeskSource } from './desk-source.ts';
import { proposalWords } from './entry-line/try-out.ts';
import type { Desk } from './use-desk.ts';

interface EntryProps {
  readonly source: DeskSource;
  readonly desk: Desk;
  readonly input: RefObject<HTMLInputElement | null>;
  readonly openDrawer: string | null;
  readonly onDrawer: (drawer: 'keys' | 'more') => void;
}

const SHOWN_COMPLETIONS = 4;

function Hint({ source, desk }: Pick<EntryProps, 'source' | 'desk'>) {
  const { reading, completions, changeLine } = desk;
  const { railroad, state, recent } = source;
  const tried = useMemo(
    () =>
      reading.kind === 'one' ? proposalWords({ railroad, state, recent }, state.at, reading.proposal) : null,
    [reading, railroad, state, recent],
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

export function EntryZone({ source, desk, input, openDrawer, onDrawer }: EntryProps) {
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
        <Hint source={source} desk={desk} />
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
