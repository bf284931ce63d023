import { describe, expect, it } from 'vitest';
import type { BlockId } from '../../shared-model/ids.ts';
import { blockMarks } from '../../shared-model/railroad/block-marks.ts';
import type { Block } from '../../shared-model/railroad/document.ts';

const marksOf = (...ids: string[]) => {
  const blocks = ids.map(
    (id) => ({ id: id as BlockId, name: id, source: {}, feeders: [] }) as unknown as Block,
  );
  return [...blockMarks({ blocks }).values()];
};

describe('the marks of blocks', () => {
  it('are the numbers at the end of their ids', () => {
    expect(marksOf('B1', 'B02', 'main-12')).toEqual(['1', '2', '12']);
  });

  it('are the whole id where there is no number', () => {
    expect(marksOf('yard', 'B0')).toEqual(['yard', 'B0']);
  });

  it('are the whole ids where two numbers are the same', () => {
    expect(marksOf('B1', 'Y1', 'B2')).toEqual(['B1', 'Y1', '2']);
  });

  it('never take the id of another block', () => {
    expect(marksOf('B5', '5')).toEqual(['B5', '5']);
    expect(new Set(marksOf('A3', 'B4', '4', 'C33', '3')).size).toBe(5);
  });
});
