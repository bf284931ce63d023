import { describe, expect, it } from 'vitest';
import { boardLayout } from '../../../renderer/board/board-layout.ts';
import { boardStops, thingAt } from '../../../renderer/board/stops.ts';
import { trackDrawing } from '../../../renderer/board/track-drawing.ts';
import { DIRECTIONS, nextStop, type Stop } from '../../../renderer/board/walk.ts';
import { clubRailroad } from '../support/club-railroad.ts';

const stop = (id: string, at: [number, number], ...joined: string[]): Stop => ({
  id,
  at,
  joined: new Set(joined),
});

describe('an arrow key', () => {
  it('leads to the nearest stop on its side', () => {
    const stops = [stop('a', [0, 0]), stop('b', [10, 0]), stop('c', [30, 0])];
    expect(nextStop(stops, 'a', 'ArrowRight')).toBe('b');
    expect(nextStop(stops, 'c', 'ArrowLeft')).toBe('b');
  });

  it('follows the track rather than the eye', () => {
    const stops = [stop('a', [0, 0], 'far'), stop('near', [10, 0]), stop('far', [15, 3])];
    expect(nextStop(stops, 'a', 'ArrowRight')).toBe('far');
  });

  it('stays where nothing lies on that side', () => {
    expect(nextStop([stop('a', [0, 0]), stop('b', [10, 0])], 'a', 'ArrowUp')).toBe('a');
  });

  it('starts at the first stop where it was nowhere', () => {
    expect(nextStop([stop('a', [0, 0])], 'gone', 'ArrowUp')).toBe('a');
  });
});

describe('the stops of a railroad', () => {
  const railroad = clubRailroad();
  const layout = boardLayout(railroad, trackDrawing(railroad), { width: 1920, height: 500 }, 1, 20);
  const stops = boardStops(railroad, layout);

  it('are its blocks and its turnouts', () => {
    const turnouts = railroad.document.nodes.filter(({ kind }) => kind === 'turnout');
    expect(stops).toHaveLength(railroad.document.blocks.length + turnouts.length);
  });

  it('can all be reached from the first with arrow keys', () => {
    const reached = new Set([stops[0]?.id ?? '']);
    for (const id of reached) for (const direction of DIRECTIONS) reached.add(nextStop(stops, id, direction));
    expect(stops.map(({ id }) => id).filter((id) => !reached.has(id))).toEqual([]);
  });

  it('are joined over gaps', () => {
    expect([...(stops.find(({ id }) => id === 'B1')?.joined ?? [])].sort()).toEqual(['B2', 'B4']);
  });
});

describe('what is pressed at a point', () => {
  const railroad = clubRailroad();
  const layout = boardLayout(railroad, trackDrawing(railroad), { width: 1920, height: 500 }, 1, 20);
  const stopOf = (id: string) => boardStops(railroad, layout).find((one) => one.id === id)?.at ?? [0, 0];

  it('is the nearest track, up to 22 px away', () => {
    const [x, y] = stopOf('B1');
    expect(thingAt(railroad, layout, [x, y])).toBe('B1');
    expect(thingAt(railroad, layout, [x, y - 21])).toBe('B1');
    expect(thingAt(railroad, layout, [x, y - 23])).toBeUndefined();
  });

  it('is a turnout where the pointer is close by it, though its block lies there too', () => {
    const [x, y] = stopOf('T5');
    expect(thingAt(railroad, layout, [x + 5, y])).toBe('T5');
    expect(thingAt(railroad, layout, [x + 40, y])).toBe('B7');
  });
});
