/** The entry line with what Enter would do, and CALL ALL STOP. */
import type { RefObject } from 'react';
import { Act } from '../parts/act.tsx';
import type { DeskSource } from './desk-source.ts';
import type { Meaning } from './entry-line/meaning.ts';
import { preview } from './entry-line/preview.ts';

interface EntryProps {
  readonly source: DeskSource;
  readonly line: string;
  readonly meaning: Meaning;
  readonly input: RefObject<HTMLInputElement | null>;
  readonly onLine: (line: string) => void;
  readonly onEnter: () => void;
  readonly onChoose: (name: string) => void;
  readonly onStop: () => void;
}

function Hint({
  source,
  line,
  meaning,
  onChoose,
}: Pick<EntryProps, 'source' | 'line' | 'meaning' | 'onChoose'>) {
  if (line.trim() === '') return null;
  if (meaning.kind === 'several')
    return (
      <span className="desk-choices">
        Which?{' '}
        {meaning.list.slice(0, 6).map(({ id, name }) => (
          <Act kind="calm" key={id} onPress={() => onChoose(name)}>
            {name}
          </Act>
        ))}
      </span>
    );
  if (meaning.kind === 'expects') return <span className="quiet">{meaning.says}</span>;
  if (meaning.kind === 'why') return <span className="quiet">says why</span>;
  const { refused, says } = preview(source, meaning.items);
  return <span className={refused ? 'desk-would-refuse' : undefined}>{says}</span>;
}

export function EntryZone(props: EntryProps) {
  const { line, input, onLine, onEnter, onStop } = props;
  return (
    <section className="desk-entry" data-zone="entry" aria-label="Entry">
      <label className="unseen" htmlFor="entry-line">
        Entry line
      </label>
      <input
        id="entry-line"
        ref={input}
        className="field-input desk-line"
        value={line}
        autoComplete="off"
        spellCheck={false}
        placeholder="7 to quarry"
        onChange={(event) => onLine(event.target.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter' || line.trim() === '' || event.code === 'NumpadEnter') return;
          event.preventDefault();
          event.stopPropagation();
          onEnter();
        }}
      />
      <span className="desk-hint" aria-live="polite">
        <Hint {...props} />
      </span>
      <Act kind="calm" onPress={onEnter} notNow={line.trim() === '' ? 'Nothing is typed.' : undefined}>
        Enter
      </Act>
      <Act kind="stop" onPress={onStop} keyName="9">
        CALL ALL STOP
      </Act>
    </section>
  );
}
