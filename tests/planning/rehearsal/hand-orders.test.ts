/** A rehearsal by hand made real: which of its orders go to the evening, and under which number of authority. */
import { describe, expect, it } from 'vitest';
import type { AuthorityId } from '../../../shared-model/ids.ts';
import { grantedIn, handOrders, realOrder } from '../../../shared-model/planning/rehearsal/hand-orders.ts';
import { type Evening, newEvening, take } from '../../../shared-model/session/evening.ts';
import { sessionInput } from '../../../shared-model/session/input.ts';
import { demo } from '../../support/three-trains.ts';

const said = (evening: Evening, ...inputs: readonly object[]): Evening =>
  inputs.reduce<Evening>(
    (now, input) => take(now, { at: now.state.at, input: sessionInput.parse(input) }).evening,
    evening,
  );

const live = said(
  newEvening(demo),
  { do: 'open-session' },
  { do: 'assign-cab', cab: '1', person: 'Avery' },
  { do: 'assign-cab', cab: '4', person: 'Robin' },
  { do: 'place-train', train: 't3', edge: 'e11', toward: 'g1', cab: '1' },
  { do: 'place-train', train: 't24', edge: 'e46', toward: 'g16', cab: '4' },
  { do: 'start' },
);
const fork: Evening = { ...live, initial: live.state, events: [] };
const verbs = ({ events }: Evening) => handOrders(events).map(({ input }) => input.do);

describe('the orders of a rehearsal by hand', () => {
  it('are what was intended: not what hands, voices and reports confirm, and nothing that was refused', () => {
    const played = said(
      fork,
      { do: 'request-move', train: 't3', to: 'B1' },
      { do: 'acknowledge', authority: 'a1' },
      { do: 'turn-selector', selector: 'K5', position: '1' },
      { do: 'train-entered', train: 't3', block: 'B1' },
      { do: 'request-move', train: 't24', to: 'nowhere' },
      { do: 'override', why: 'it is tried', order: { do: 'turn-selector', selector: 'K6', position: '4' } },
      { do: 'declare', train: 't24', to: 'B3' },
    );
    expect(verbs(played)).toEqual(['request-move', 'declare']);
  });

  it('leave out what was taken back', () => {
    const declared = said(fork, { do: 'declare', train: 't24', to: 'B3' });
    const entry = declared.events.at(-1)?.entry;
    expect(verbs(declared)).toEqual(['declare']);
    expect(verbs(said(declared, { do: 'retract', entry, why: 'mistyped' }))).toEqual([]);
  });

  it('are about the authority that the evening granted, whatever its number was in the rehearsal', () => {
    const played = said(
      fork,
      { do: 'request-move', train: 't3', to: 'B1' },
      { do: 'annul', authority: 'a1', why: 'it was only tried' },
    );
    const [, annul] = handOrders(played.events);
    if (annul === undefined) throw new Error('the annulment was not taken');
    const granted = grantedIn(played.events);
    expect([...granted]).toEqual(['a1']);
    const names = new Map([['a1' as AuthorityId, 'a9' as AuthorityId]]);
    expect(realOrder(annul, names, granted)).toMatchObject({ do: 'annul', authority: 'a9' });
    // Granted in the rehearsal alone: another train may have that number in the evening.
    expect(realOrder(annul, new Map(), granted)).toBeNull();
    // Granted before it was forked: the number is the evening's own.
    expect(realOrder(annul, new Map(), new Set())).toMatchObject({ authority: 'a1' });
  });
});
