/** Letters and figures to touch, for a line without a keyboard. */
import { Act } from '../parts/act.tsx';
import type { Desk } from './use-desk.ts';

const ROWS = ['1234567890', 'qwertyuiop', 'asdfghjkl', 'zxcvbnm,.:'] as const;
/** The words that lines are made of, at one touch each. */
const WORDS = ['to', 'in', 'at', 'clear', 'by', 'over', 'limits', 'is', 'facing'] as const;

export function KeyDrawer({ desk }: { readonly desk: Desk }) {
  const add = (text: string) => desk.changeLine(`${desk.line}${text}`);
  const addWord = (word: string) => desk.changeLine(`${desk.line.trimEnd()} ${word} `.trimStart());
  return (
    <div className="desk-keys">
      {ROWS.map((row) => (
        <div key={row} className="desk-key-row">
          {[...row].map((letter) => (
            <Act key={letter} kind="calm" onPress={() => add(letter)}>
              {letter}
            </Act>
          ))}
        </div>
      ))}
      <div className="desk-key-row">
        {WORDS.map((word) => (
          <Act key={word} kind="calm" onPress={() => addWord(word)}>
            {word}
          </Act>
        ))}
      </div>
      <div className="desk-key-row">
        <Act kind="calm" onPress={() => add(' ')}>
          space
        </Act>
        <Act kind="calm" onPress={() => desk.changeLine(desk.line.slice(0, -1))}>
          back
        </Act>
        <Act kind="calm" onPress={() => desk.changeLine('')}>
          empty
        </Act>
        <Act kind="calm" onPress={() => desk.submit()}>
          Enter
        </Act>
      </div>
    </div>
  );
}
