/** The words that are spoken, word for word: they have to read well aloud, and to stay the same. */
import { describe, expect, it } from 'vitest';
import type { Evening } from '../../shared-model/session/evening.ts';
import { sayAgain, sayEntry } from '../../shared-model/session/say.ts';
import { madeUp, played, railroad, running, taken } from '../renderer/desk/demo-evening.ts';

/** What is spoken after one more entry, at 20:14. */
function spoken(evening: Evening, plain: object): string | null {
  const { evening: after, event } = taken(evening, plain);
  return sayEntry({ railroad, state: after.state }, event, '20:14');
}

const grant = { do: 'request-move', train: 't7', to: 'B5', overhang: true };
const granted = played(running, grant);
const readBack = played(granted, { do: 'acknowledge', authority: 'a1' });

describe('what is spoken', () => {
  it('of a grant: from where, to where, by way of what, where to stop, and "read back"', () => {
    expect(spoken(running, { do: 'request-move', train: 't12', to: 'B4', overhang: true })).toBe(
      'Cab 2, No. 12: from Depot to 4. Stop at the gap. Read back.',
    );
  });

  it('of a grant toward a live block that cannot be turned off: well short of the gap', () => {
    expect(spoken(running, grant)).toBe(
      'Cab 1, No. 7: from Depot to 5 by way of 4. Stop well short: live gap ahead. Read back.',
    );
  });

  it('of limits', () => {
    expect(spoken(running, { do: 'grant-limits', train: 't7', blocks: ['B3', 'B4', 'B5'] })).toBe(
      'Cab 1, No. 7: limits 3, 4 and 5. Work as you like and report clear. Read back.',
    );
  });

  it('of a right read-back: the time', () => {
    expect(spoken(granted, { do: 'acknowledge', authority: 'a1' })).toBe('Cab 1, No. 7: right, 20:14.');
  });

  it('of a refusal: the first reason, and that the crew will be called', () => {
    expect(spoken(readBack, { do: 'request-move', train: 't12', to: 'B4', overhang: true })).toBe(
      "Cab 2, No. 12: not now. 4 is No. 7's (Cab 1). I will call you.",
    );
    expect(spoken(running, { do: 'request-move', train: 't7', to: 'B8' })).toBe(
      'Cab 1, No. 7: not now. No. 7 does not fit into 8.',
    );
  });

  it('of an annulled authority', () => {
    expect(spoken(readBack, { do: 'annul', authority: 'a1', why: 'derailed' })).toBe(
      'Cab 1, No. 7: your authority is annulled. Hold where you are. Read back.',
    );
  });

  it('to stop one cab, twice, and to stop everybody, with where the power is cut', () => {
    expect(spoken(running, { do: 'stop-called', cab: '2' })).toBe('Cab 2, stop. Cab 2, stop.');
    expect(spoken(running, { do: 'stop-all', why: 'child on the track', kind: 'emergency' })).toBe(
      'All handles to zero. Master switch: by the cellar stairs.',
    );
  });

  it('to a crew that calls: to go ahead, or to hold and why', () => {
    expect(spoken(running, { do: 'call', cab: '2' })).toBe('Cab 2: go ahead.');
    const { evening } = taken(readBack, { do: 'request-move', train: 't12', to: 'B4', overhang: true });
    expect(spoken(evening, { do: 'call', cab: '2' })).toBe(
      "Cab 2, No. 12: hold where you are. 4 is No. 7's (Cab 1).",
    );
  });

  it('at a relief: the authority in force, to be read back by the new person', () => {
    expect(spoken(readBack, { do: 'assign-cab', cab: '1', person: 'Kim' })).toBe(
      'Kim, you have Cab 1. Cab 1, No. 7: from Depot to 5 by way of 4. Stop well short: live gap ahead. Read back.',
    );
    expect(spoken(running, { do: 'assign-cab', cab: '4', person: 'Kim' })).toBeNull();
  });

  it('at a hand-off: both handles at the same setting', () => {
    expect(spoken(running, { do: 'hand-off', train: 't7', block: 'B3', toCab: '2' })).toBe(
      'Cab 2: No. 7 is yours, both handles at the same setting.',
    );
    expect(spoken(readBack, { do: 'hand-off', train: 't7', block: 'B5', toCab: '2' })).toBe(
      'Cab 1, No. 7 and Cab 2: from 5 on Cab 2, both handles at the same setting.',
    );
  });

  it('of the time, of what is out of service, of a breaker', () => {
    expect(spoken(running, { do: 'set-clock', ratio: 4, minutes: 402 })).toBe(
      'Everybody: railroad time 6:42, 4 to 1.',
    );
    expect(spoken(running, { do: 'tag', thing: 'K6', why: 'loose knob', by: 'Kim' })).toBe(
      'Everybody: selector 6 is out of service, loose knob.',
    );
    expect(spoken(running, { do: 'breaker-tripped', supply: 'north' })).toBe(
      'Everybody on North bench: handles to zero. The breaker tripped.',
    );
    const tripped = played(running, { do: 'breaker-tripped', supply: 'north' });
    expect(spoken(tripped, { do: 'breaker-reset', supply: 'north' })).toBe(
      'Everybody on North bench: live again. Inch your train and say which way.',
    );
  });

  it('never of what only the dispatcher sees', () => {
    for (const plain of [
      { do: 'turn-selector', selector: 'K4', position: '1' },
      { do: 'train-entered', train: 't7', block: 'B3' },
      { do: 'note', text: 'quiet' },
    ])
      expect(spoken(running, plain)).toBeNull();
  });

  it('again, in the words of the grant', () => {
    expect(sayAgain(readBack, 't7' as never)).toBe(
      'Cab 1, No. 7: from Depot to 5 by way of 4. Stop well short: live gap ahead. Read back.',
    );
    expect(sayAgain(madeUp, 't7' as never)).toBeNull();
  });

  it('never names a colour', () => {
    const words = [
      spoken(running, grant),
      spoken(readBack, { do: 'request-move', train: 't12', to: 'B4', overhang: true }),
      spoken(running, { do: 'stop-called', cab: '2' }),
    ].join(' ');
    expect(words).not.toMatch(/\b(red|green|blue|yellow|orange|white|black|purple|sky|vermillion)\b/i);
  });
});
