/** Spots and gaps in the owner's words: never by the ids of the drawing where a block says it. */
import { describe, expect, it } from 'vitest';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import type { EdgeId, NodeId } from '../../shared-model/ids.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { isStop } from '../../shared-model/railroad/travel.ts';
import { gapWords, spotWords, stopsIn } from '../../shared-model/railroad/where-words.ts';

const railroad = indexRailroad(demoRailroad);
const spot = (edge: string, toward: string) => ({ edge: edge as EdgeId, toward: toward as NodeId });

describe('where a train stands, in words', () => {
  it('is its block, and the block that it faces', () => {
    expect(spotWords(railroad, spot('e6', 'g4'))).toBe('3 Depot Main, facing 4');
  });

  it('says that the track ends', () => {
    expect(spotWords(railroad, spot('e32', 'n1'))).toMatch(/, facing the end of track/);
  });

  it('names a turnout that it stands short of', () => {
    expect(spotWords(railroad, spot('e1', 'T5'))).toBe('1 Bay, facing turnout T5');
  });

  it('tells every two spots of the railroad apart where a head may stop', () => {
    const every = demoRailroad.blocks.flatMap(({ id }) => stopsIn(railroad, id));
    const words = every.map((one) => spotWords(railroad, one));
    expect(every.every(({ toward }) => isStop(railroad, toward))).toBe(true);
    expect(new Set(words).size).toBe(words.length);
  });
});

describe('a gap in words', () => {
  it('is named by the blocks that it parts', () => {
    expect(gapWords(railroad, 'g2')).toBe('the gap between 1 and 2');
  });

  it('tells every two gaps apart', () => {
    const gaps = demoRailroad.nodes.filter(({ kind }) => kind === 'gap');
    expect(new Set(gaps.map(({ id }) => gapWords(railroad, id))).size).toBe(gaps.length);
  });
});
