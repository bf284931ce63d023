/** The questions of the quick start, and what may be answered: a few things that every owner knows, from which a first railroad is drawn. */
import { z } from '../../zod.ts';

export const MOST_LOOPS = 3;
export const MOST_YARD_TRACKS = 5;
export const MOST_THROTTLES = 4;
export const MOST_SUPPLIES = 2;

/** Which blocks have a selector by now. `some`: the first two of each loop; all others are wired straight to one throttle. */
export const SELECTORS_THERE = ['all', 'some', 'none'] as const;

/** The common scales, N of 1:N. O, S, HO and N: NMRA S-1.2. */
export const SCALES = [
  { ratio: 48, name: 'O' },
  { ratio: 64, name: 'S' },
  { ratio: 87.1, name: 'HO' },
  { ratio: 160, name: 'N' },
] as const;

const count = (least: number, most: number) => z.number().int().min(least).max(most);

export const quickAnswers = z
  .strictObject({
    name: z.string().min(1, 'expected a name of at least one character').max(120),
    scaleRatio: z.number().positive(),
    system: z.enum(['three-rail-ac', 'two-rail-dc']),
    loops: count(1, MOST_LOOPS),
    /** Neighbouring loops are joined by a pair of crossovers, so that a train can go over and come back. */
    joined: z.boolean(),
    siding: z.boolean(),
    yardTracks: count(0, MOST_YARD_TRACKS),
    /** A track across the loop that turns a train round. */
    reverseConnection: z.boolean(),
    throttles: count(1, MOST_THROTTLES),
    supplies: count(1, MOST_SUPPLIES),
    selectors: z.enum(SELECTORS_THERE),
  })
  .refine(({ supplies, throttles }) => supplies <= throttles, {
    path: ['supplies'],
    message: 'expected no more supplies than throttles',
  });

export type QuickAnswers = z.infer<typeof quickAnswers>;

/** What stands in the questions at first: the railroad that most begin with. */
export const FIRST_ANSWERS: QuickAnswers = {
  name: 'My railroad',
  scaleRatio: 48,
  system: 'three-rail-ac',
  loops: 2,
  joined: true,
  siding: true,
  yardTracks: 2,
  reverseConnection: false,
  throttles: 2,
  supplies: 1,
  selectors: 'all',
};
