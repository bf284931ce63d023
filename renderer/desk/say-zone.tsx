/** SAY: the exact words to speak, and the key for a right read-back. Stop words are in far letters. */
import { Act } from '../parts/act.tsx';
import type { DeskSource } from './desk-source.ts';
import type { Desk } from './use-desk.ts';

/** Longer words in far letters would not be seen whole. */
const MOST_FAR = 30;

/** What is read from across the room: all of it if it is short, else its first sentence, which says what to do. */
function farWords(words: string): readonly [far: string, rest: string] {
  const end = words.indexOf('. ') + 1;
  return words.length <= MOST_FAR || end === 0 ? [words, ''] : [words.slice(0, end), words.slice(end + 1)];
}

export function SayZone({ source, desk }: { readonly source: DeskSource; readonly desk: Desk }) {
  const { now } = desk.saying;
  // Alone, nobody is spoken to; but the words that stop everything are always shown.
  const words = now === null || (source.state.alone && !now.far) ? '' : `“${now.words}”`;
  const [head, rest] = now?.far === true ? farWords(words) : ['', words];
  const readBack = now?.readBack ?? null;
  const name = readBack === null ? '' : (source.state.trains[readBack.authority.train]?.name ?? '');
  return (
    <section className="desk-say" data-zone="say" aria-label="Say">
      <p>
        {head === '' ? null : <span className="desk-far">{head} </span>}
        {rest}
      </p>
      {readBack === null ? null : (
        <Act kind="calm" onPress={() => desk.act('read-back')} keyName="Enter">
          {name} right
        </Act>
      )}
      {readBack === null || !desk.pending.some(({ train }) => train === readBack.authority.train) ? null : (
        <Act kind="calm" onPress={() => desk.act('read-back-and-throws')} keyName="PgDn">
          Right, all thrown
        </Act>
      )}
      <Act kind="calm" onPress={() => desk.act('say-again')} keyName="*">
        Again
      </Act>
    </section>
  );
}
