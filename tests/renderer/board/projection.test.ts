import { describe, expect, it } from 'vitest';
import {
  fitted,
  following,
  MOST_ZOOM,
  mostZoom,
  panned,
  projected,
  WHOLE,
  zoomed,
} from '../../../renderer/board/projection.ts';

const zone = { width: 1000, height: 300 };
const drawing = { lines: new Map(), bounds: { left: 0, top: 0, right: 40, bottom: 10 } };

describe('fitting a drawing into its zone', () => {
  it('uses the zone up to the margins', () => {
    const projection = fitted(drawing, zone, [20, 30], 1);
    expect(projected(projection, [0, 0])).toEqual([20, 30]);
    expect(projected(projection, [40, 10])).toEqual([980, 270]);
  });

  it('stretches it no more than two and a half times', () => {
    const { scale } = fitted({ ...drawing, bounds: { ...drawing.bounds, bottom: 1 } }, zone, [20, 30], 1);
    expect(scale[1] / scale[0]).toBeCloseTo(2.5, 9);
  });
});

describe('zooming and panning', () => {
  it('keeps what lies under the pointer there', () => {
    const sight = zoomed(WHOLE, 2, [800, 100], zone);
    const before = projected(fitted(drawing, zone, [0, 0], 1), [30, 3]);
    const [x, y] = projected(fitted(drawing, zone, [0, 0], 2), [30, 3]);
    const moved = zoomed(WHOLE, 2, before, zone);
    expect([x + moved.pan[0], y + moved.pan[1]]).toEqual([before[0], before[1]]);
    expect(sight.zoom).toBe(2);
  });

  it('ends at the whole and at the closest', () => {
    expect(zoomed(WHOLE, 0.1, [0, 0], zone)).toEqual(WHOLE);
    expect(zoomed(WHOLE, 100, [500, 150], zone).zoom).toBe(MOST_ZOOM);
    expect(zoomed(WHOLE, 100, [500, 150], zone, mostZoom(400)).zoom).toBe(50);
    expect(mostZoom(18)).toBe(MOST_ZOOM);
  });

  it('does not lose the drawing', () => {
    expect(panned(WHOLE, [500, 500], zone).pan).toEqual([0, 0]);
    expect(panned({ zoom: 2, pan: [0, 0] }, [9999, -9999], zone).pan).toEqual([500, -150]);
  });
});

describe('following a train', () => {
  const near = { zoom: 3, pan: [0, 0] as const };

  it('leaves the board alone while the train is well inside, or all is in sight', () => {
    expect(following(near, [500, 150], zone)).toBe(near);
    expect(following(WHOLE, [5, 5], zone)).toBe(WHOLE);
  });

  it('brings a train that is not into the middle', () => {
    const { pan } = following(near, [1200, 150], zone);
    expect(1200 + pan[0]).toBe(500);
  });
});
