/** The spoken lines are fixed forms: pinned here word for word, and never naming a colour. */
import { describe, expect, it } from 'vitest';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import type { AuthorityId, ThrottleId, TrainId } from '../../shared-model/ids.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import { sayEntry, sayStop, sayStopAll } from '../../shared-model/session/say.ts';

const railroad = indexRailroad(demoRailroad);
let evening = newEvening(railroad);
const spoken = (input: object): string | null => {
  const taken = take(evening, { at: evening.state.at + 1, input: sessionInput.parse(input) });
  evening = taken.evening;
  return sayEntry({ railroad, state: evening.state }, taken.event, '20:14');
};
spoken({ do: 'open-session' });
spoken({ do: 'assign-cab', cab: '1', person: 'Avery' });
spoken({ do: 'assign-cab', cab: '2', person: 'Blake' });
spoken({ do: 'place-train', train: 't7', edge: 'e6', toward: 'g4', cab: '1' });
spoken({ do: 'start' });

describe('the words to say', () => {
  const refused = spoken({ do: 'request-move', train: 't7', to: 'B8' });
  const granted = spoken({ do: 'request-move', train: 't7', to: 'B5', overhang: true });
  const right = spoken({ do: 'acknowledge', authority: 'a1' as AuthorityId });
  const annulled = spoken({ do: 'annul', authority: 'a1' as AuthorityId, why: 'changed' });

  it('of a refusal give the reason', () => {
    expect(refused).toBe('Cab 1, No. 7: not now. No. 7 does not fit into block B8 (Ridge).');
  });
  it('of a grant give from, to, the way, that the gap at its end leads into live track, and ask for the read-back', () => {
    expect(granted).toBe(
      'Cab 1, No. 7: from 3 to 5 by way of 4. Stop well short: live gap ahead. Read back.',
    );
  });
  it('of a right read-back give the time', () => {
    expect(right).toBe('Cab 1, No. 7: Right, 20:14.');
  });
  it('of an annulment hold the train', () => {
    expect(annulled).toBe('Cab 1, No. 7: your authority is annulled. Hold where you are. Read back.');
  });
  it('of a stop say it twice, and of a stop of all name the master switch', () => {
    expect(sayStop(railroad, '2' as ThrottleId)).toBe('Cab 2, stop. Cab 2, stop.');
    expect(sayStopAll(railroad)).toBe(
      `All handles to zero. Master switch: ${demoRailroad.masterSwitch ?? ''}.`,
    );
  });
  it('never name a colour', () => {
    const all = [refused, granted, right, annulled].join(' ');
    expect(all).not.toMatch(/\b(red|green|blue|orange|yellow|purple|white|sky)\b/i);
  });
  it('keep quiet about what is not spoken', () => {
    expect(spoken({ do: 'note', text: 'quiet' })).toBeNull();
    expect(spoken({ do: 'train-stopped', train: 't7' as TrainId })).toBeNull();
  });
});
