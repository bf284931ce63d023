/** How far the rail carries the current beyond its feeders. */
import { expect, test } from 'vitest';
import { railRuns } from '../../shared-model/power/rail-run.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { passingSidingExample } from '../support/example.ts';

/** The longest rail behind each feeder of the passing main, fed at the named edges. */
function runs(feeders: readonly string[]) {
  const railroad = indexRailroad(
    railroadDocument.parse({
      ...passingSidingExample,
      blocks: passingSidingExample.blocks.map((block) =>
        block.id === 'B2' ? { ...block, feeders: feeders.map((edge) => ({ edge })) } : block,
      ),
    }),
  );
  const block = railroad.document.blocks.find((each) => each.id === 'B2');
  if (block === undefined) throw new Error('the example has B2');
  return Object.fromEntries(railRuns(railroad, block));
}

test('from the middle of the fed edge to the farthest end, never across a gap', () => {
  // e3 is 2400 long; e2 and e7 add 300, e4 and e6 250 to a gap each; e5 beyond the gaps is not reached.
  expect(runs(['e3'])).toEqual({ e3: 1500 });
  // From the middle of e2: 150 to T1, 2400 along e3, 300 along e7.
  expect(runs(['e2'])).toEqual({ e2: 2850 });
});

test('between two feeders each carries as far as the spot where both are equally near', () => {
  // From e2 and from e7: 150 to the turnout each, and half of the 2400 between.
  expect(runs(['e2', 'e7'])).toEqual({ e2: 1350, e7: 1350 });
});
