/** The railroads that come with the console: the demo, and two smaller ones to start drawing from. All invented. */
import { type RailroadDocument, railroadDocument } from '../railroad/document.ts';
import harborAndQuarry from './harbor-and-quarry.railroad.json' with { type: 'json' };
import lineWithSiding from './line-with-siding.railroad.json' with { type: 'json' };
import ovalWithSiding from './oval-with-siding.railroad.json' with { type: 'json' };

/**
 * Two ovals with crossovers, a passing siding, a yard, a quarry spur and a cutoff that turns trains round; eighteen blocks, two of
 * them wired straight to a throttle and two behind toggles, four throttles on two supplies, six trains.
 */
export const demoRailroad: RailroadDocument = railroadDocument.parse(harborAndQuarry);

export interface ExampleRailroad {
  readonly id: string;
  /** What there is to it, in one line. */
  readonly says: string;
  readonly document: RailroadDocument;
}

/** What the drawing board offers to start from, the smallest first. */
export const exampleRailroads: readonly ExampleRailroad[] = [
  {
    id: 'line-with-siding',
    says: 'A line from end to end with a passing siding: six blocks, two cabs, two trains.',
    document: railroadDocument.parse(lineWithSiding),
  },
  {
    id: 'oval-with-siding',
    says: 'An oval with a siding and an engine house behind a toggle: seven blocks, two cabs, two trains.',
    document: railroadDocument.parse(ovalWithSiding),
  },
  {
    id: 'harbor-and-quarry',
    says: 'Two ovals, a siding, a yard, a spur and a cutoff: eighteen blocks, four cabs, six trains.',
    document: demoRailroad,
  },
];
