/** What the drawing board names as next, on the way from a blank sheet to an evening. */
import { expect, test } from 'vitest';
import { nextStep } from '../../../renderer/drawing-board/next-step.ts';
import { fullAudit } from '../../../shared-model/power/audit.ts';
import type { RailroadDocument } from '../../../shared-model/railroad/document.ts';
import { blankSheet } from '../../../shared-model/railroad/editing/draft.ts';
import { passingSidingExample as whole } from '../../support/example.ts';

const next = (draft: RailroadDocument, published = false) => nextStep(draft, fullAudit(draft), published);
const { nodes, edges } = whole;
const track: RailroadDocument = { ...blankSheet('New'), nodes, edges };
const uncut = nodes.map((node) => (node.kind === 'gap' ? { ...node, kind: 'joint' as const } : node));
const errorsAside: RailroadDocument = { ...whole, blocks: [...whole.blocks].reverse(), trains: [] };
const onNoDial = {
  ...whole,
  selectors: whole.selectors.map((dial) => ({ ...dial, positions: ['off' as const] })),
};

test.each([
  ['a blank sheet: the track', blankSheet('New'), 'track'],
  ['track in one piece: the gaps', { ...track, nodes: uncut }, 'track'],
  ['track with gaps: the throttles', track, 'wiring/power'],
  ['throttles that no dial has: the dials', onNoDial, 'wiring/power'],
  [
    'dead track: the blocks',
    { ...track, supplies: whole.supplies, throttles: whole.throttles },
    'wiring/blocks',
  ],
  ['no train: a train', errorsAside, 'trains'],
] as const)('on %s', (_name, draft, sheet) => {
  expect(next(draft)?.sheet).toBe(sheet);
});

test('a gap that is missing is mended before anything is published', () => {
  const missing = { ...whole, nodes: uncut };
  expect(next(missing)).toEqual({ says: 'mend 3 errors', sheet: 'findings' });
});

test('a whole draft is published, and then nothing is left to do here', () => {
  expect(next(whole)).toEqual({ says: 'publish it', sheet: null });
  expect(next(whole, true)).toBeNull();
});
