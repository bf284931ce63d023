/** Entries in words: every verb of the demo evening and those with figures have a sentence of their own. */
import { describe, expect, it } from 'vitest';
import { demoEvening } from '../../shared-model/demo/evening.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { eventWords } from '../../shared-model/logbook/event-words.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { sessionInput } from '../../shared-model/session/input.ts';

const railroad = indexRailroad(demoRailroad);
const fresh = newEvening(railroad);
const words = (input: object): string => {
  const { evening, event } = take(fresh, { at: 0, input: sessionInput.parse(input) });
  return eventWords(railroad, evening.state, event);
};

describe('an entry in words', () => {
  it.each([
    [{ do: 'set-clock', ratio: 6, minutes: 425 }, 'Railroad time 7:05, 6 to 1'],
    [{ do: 'apply-setting', setting: 'meet' }, 'Setting: '],
    [
      { do: 'add-train', train: 'x1', name: 'No. 91', length: 900, amps: 2.5 },
      'New tonight: No. 91, 900 mm, 2.5 A',
    ],
    [{ do: 'make-up', train: 't7', length: 1200, amps: 3 }, 'No. 7 is 1200 mm long now and draws 3 A'],
    [
      { do: 'phase-measured', a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross: 0.4 },
      'Phase: North bench 18 V, South bench 18 V, 0.4 V across',
    ],
    [{ do: 'supply-replugged', supply: 'south' }, 'South bench was replugged'],
    [{ do: 'breaker-tripped', supply: 'north' }, 'Breaker of North bench tripped'],
    [
      { do: 'place-train', train: 't7', edge: 'e6', toward: 'g4', cab: '1' },
      'No. 7 placed in 3 Depot Main, facing 4',
    ],
    [{ do: 'train-at', train: 't7', edge: 'e6', toward: 'g3' }, 'No. 7 is in 3 Depot Main, facing 2'],
    [{ do: 'tag', thing: 'B3', why: 'a loose joiner', by: 'Kim' }, 'Block 3 (Depot Main) tagged by Kim'],
    [{ do: 'tag', thing: 'K3', why: 'a loose knob', by: 'Kim' }, 'Selector 3 tagged by Kim'],
  ])('%j begins with a sentence', (input, says) => {
    expect(words(input).startsWith(says), words(input)).toBe(true);
  });

  it('gives lengths in the units of the user', () => {
    const input = sessionInput.parse({ do: 'make-up', train: 't7', length: 1219.2, amps: 3 });
    const { evening, event } = take(fresh, { at: 0, input });
    expect(eventWords(railroad, evening.state, event, 'imperial')).toBe(
      'No. 7 is 4 ft long now and draws 3 A',
    );
  });

  it('names no edge and no node of the drawing, through the whole demo evening', () => {
    const drawn = new Set([
      ...demoRailroad.edges.map(({ id }) => String(id)),
      ...demoRailroad.nodes.filter(({ kind }) => kind !== 'turnout').map(({ id }) => String(id)),
    ]);
    const raw: string[] = [];
    let evening = fresh;
    for (const timed of demoEvening()) {
      const taken = take(evening, timed);
      evening = taken.evening;
      const said = [
        eventWords(railroad, evening.state, taken.event),
        ...taken.event.reasons.map((reason) => reason.says),
      ].join(' ');
      if (said.split(/[^\w-]+/).some((word) => drawn.has(word))) raw.push(said);
    }
    expect(raw).toEqual([]);
  });

  it('is never the bare verb, through the whole demo evening', () => {
    const bare: string[] = [];
    let evening = fresh;
    for (const timed of demoEvening()) {
      const taken = take(evening, timed);
      evening = taken.evening;
      const said = eventWords(railroad, evening.state, taken.event);
      if (said === taken.event.input.do.replaceAll('-', ' ')) bare.push(said);
    }
    expect(bare).toEqual([]);
  });
});
