/** A kept plan: whose turn it is, and how far the trains have come by the reports. */
import { describe, expect, it } from 'vitest';
import { atTheBeginning, goneOn, howFarAfter } from '../../../shared-model/planning/carry-out/how-far.ts';
import { turnsOf } from '../../../shared-model/planning/carry-out/whose-turn.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { carried, forked, THREE } from '../../support/crew/rehearsed.ts';

describe('whose turn it is', () => {
  const { kept } = THREE;
  const turnOf = (train: string, far = atTheBeginning(kept), given: readonly number[] = []) =>
    turnsOf(kept, far, new Set(given))[kept.orders.findIndex(({ order }) => order.train === train)];

  it('is at first the train’s for which no other has to leave anything', () => {
    expect(turnOf('t3')).toEqual({ is: 'next' });
    expect(turnOf('t24')).toMatchObject({ is: 'held', until: [{ train: 't3', block: 'B5' }] });
    expect(turnOf('t12')).toMatchObject({ is: 'held' });
  });

  it('comes to the next when the train before it has left what it needs, however late', () => {
    const first = kept.orders.findIndex(({ order }) => order.train === 't3');
    const far = new Map(atTheBeginning(kept)).set('t3' as never, { entered: 2, left: 0, astray: null });
    expect(turnOf('t24', far, [first])).toMatchObject({ is: 'held' });
    far.set('t3' as never, { entered: 2, left: 1, astray: null });
    expect(turnOf('t24', far, [first])).toEqual({ is: 'next' });
    expect(turnOf('t3', far, [first])).toEqual({ is: 'given' });
  });

  it('is over for an order whose train has gone so far without it', () => {
    const far = new Map(atTheBeginning(kept)).set('t3' as never, { entered: 5, left: 3, astray: null });
    expect(turnOf('t3', far)).toEqual({ is: 'given' });
  });
});

describe('how far the trains have come', () => {
  const blocksOf = (blocks: readonly string[]) =>
    ({ trains: { t3: { placed: true, lost: false, blocks } } }) as unknown as SessionState;
  const way = THREE.kept.ways.get('t3' as never) ?? [];
  const first = atTheBeginning(THREE.kept);
  const come = (blocks: readonly string[], before = first) =>
    goneOn(THREE.kept, before, blocksOf(blocks)).get('t3' as never);

  it('is read from the blocks that a train is in: entered with its head, left with its tail', () => {
    expect(come([way[1] ?? '', way[0] ?? ''])).toEqual({ entered: 2, left: 0, astray: null });
    expect(come([way[1] ?? ''])).toEqual({ entered: 2, left: 1, astray: null });
    expect(come([way[3] ?? '', way[2] ?? ''])).toEqual({ entered: 4, left: 2, astray: null });
  });

  it('goes back with a correction, and says where a train is that has left its way', () => {
    const far = goneOn(THREE.kept, first, blocksOf([way[2] ?? '']));
    expect(come([way[1] ?? ''], far)).toEqual({ entered: 2, left: 1, astray: null });
    expect(come(['B14'], far)).toEqual({ entered: 3, left: 2, astray: 'B14' });
  });

  it('is the same when it is read from the log afterwards', () => {
    const evening = forked(THREE);
    const done = carried(THREE, () => 0);
    expect(howFarAfter(THREE.kept, evening.state, done.events, 1)).toEqual(done.far);
    expect(howFarAfter(THREE.kept, evening.state, done.events, done.evening.state.entries + 1)).toEqual(
      first,
    );
  });
});
