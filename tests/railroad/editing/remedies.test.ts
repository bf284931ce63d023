/** Remedies: the button beside a finding makes an edit after which the finding is gone, and no error has come instead. */
import { describe, expect, test } from 'vitest';
import { fullAudit } from '../../../shared-model/power/audit.ts';
import { remedyFor } from '../../../shared-model/power/editing/remedy-for.ts';
import type { DraftDocument } from '../../../shared-model/railroad/editing/draft.ts';
import { applyEdit } from '../../../shared-model/railroad/editing/edit.ts';
import { cutEdge, setJoin } from '../../../shared-model/railroad/editing/split-edge.ts';
import type { FindingCode } from '../../../shared-model/refusal.ts';
import { draftOf } from '../../support/drawn-siding.ts';
import { passingSidingExample as passing } from '../../support/example.ts';

const errors = (draft: DraftDocument) => fullAudit(draft).filter(({ severity }) => severity === 'error');

/** One more block, fed like the first one. */
const blockNine = (feeders: readonly { readonly edge: string }[]) =>
  ({ ...passing.blocks[0], id: 'B9', feeders }) as unknown as (typeof passing.blocks)[number];

/** The draft after the remedy of its first finding with a code. */
function remedied(
  draft: DraftDocument,
  code: FindingCode,
): { readonly says: string; readonly draft: DraftDocument } {
  const finding = fullAudit(draft).find((one) => one.code === code);
  if (finding === undefined) throw new Error(`no ${code}`);
  const edit = remedyFor(finding, draft);
  if (edit === null) throw new Error(`no remedy for ${code}`);
  return { says: edit.says, draft: applyEdit(draft, edit) };
}

test('the example has no error to begin with', () => {
  expect(errors(passing)).toEqual([]);
});

describe('two sources', () => {
  test('get the gap back that was closed', () => {
    const closed = draftOf(setJoin(passing, 'g1', 'joint'));
    const { says, draft } = remedied(closed, 'two-sources');
    expect(says).toBe('gap at g1');
    expect(draft).toEqual(passing);
  });

  test('without a joint between them get a gap in the last edge, with its feeder beyond it', () => {
    const tapped: DraftDocument = {
      ...passing,
      blocks: [...passing.blocks, blockNine([{ edge: 'e7' }])],
    };
    const { draft } = remedied(tapped, 'two-sources');
    expect(errors(draft)).toEqual([]);
  });

  test('on one edge get a gap with one of the feeders beyond it', () => {
    const tapped: DraftDocument = {
      ...passing,
      blocks: [...passing.blocks, blockNine([{ edge: 'e1' }])],
    };
    const { draft } = remedied(tapped, 'two-sources');
    expect(errors(draft)).toEqual([]);
    expect(draft.edges).toHaveLength(passing.edges.length + 1);
  });
});

describe('dead track', () => {
  const cut = draftOf(cutEdge(passing, 'e8', 0.6));

  test('gets a block of its own, behind a selector like the others', () => {
    const { says, draft } = remedied(cut, 'dead-track');
    expect(says).toBe('new block B5 on e9');
    expect(errors(draft)).toEqual([]);
    expect(draft.selectors.at(-1)?.positions).toEqual(passing.selectors.at(-1)?.positions);
  });

  test('is fed from a block that waits for a feeder', () => {
    const waiting: DraftDocument = {
      ...cut,
      blocks: [...cut.blocks, blockNine([])],
    };
    expect(remedied(waiting, 'dead-track').says).toBe('feeder of B9 on e9');
  });
});

describe('a split block', () => {
  const twice = (edge: string): DraftDocument => ({
    ...passing,
    blocks: passing.blocks.map((block) =>
      block.id === 'B1'
        ? { ...block, feeders: [...block.feeders, { edge } as (typeof block.feeders)[number]] }
        : block,
    ),
  });

  test('has the gap in its middle closed', () => {
    const cut = draftOf(cutEdge(passing, 'e1', 0.5));
    const split = { ...twice('e9'), nodes: cut.nodes, edges: cut.edges };
    const { says, draft } = remedied(split, 'split-block');
    expect(says).toBe('no gap at g5');
    expect(errors(draft)).toEqual([]);
  });

  test('with others between its pieces becomes two blocks', () => {
    const bare: DraftDocument = {
      ...twice('e5'),
      blocks: twice('e5').blocks.filter(({ id }) => id !== 'B3'),
    };
    const apart = draftOf(cutEdge(bare, 'e4', 0.5));
    const fed = { ...apart, nodes: apart.nodes };
    const { draft } = remedied(fed, 'split-block');
    expect(fullAudit(draft).filter(({ code }) => code === 'split-block')).toEqual([]);
  });
});

describe('a broken reference', () => {
  const broken: readonly (readonly [string, DraftDocument])[] = [
    [
      'of a feeder is taken off',
      {
        ...passing,
        blocks: passing.blocks
          .map((block) => ({ ...block, feeders: [...block.feeders, { edge: 'e99' as never }] }))
          .slice(0, 1)
          .concat(passing.blocks.slice(1)),
      },
    ],
    [
      'of an edge takes the edge away',
      { ...passing, edges: [...passing.edges, { id: 'e99', between: ['n1', 'n99'], length: 5 } as never] },
    ],
    [
      'of a dial becomes not wired',
      {
        ...passing,
        selectors: passing.selectors.map((dial) => ({
          ...dial,
          positions: ['off', '9' as never, '1' as never, '3' as never],
        })),
      },
    ],
    [
      'of a turnout is found anew',
      {
        ...passing,
        nodes: passing.nodes.map((node) =>
          node.kind === 'turnout' ? { ...node, trunk: 'e99' as never } : node,
        ),
      },
    ],
    [
      'of an end with two edges makes it a joint',
      {
        ...passing,
        nodes: passing.nodes.map((node) => (node.id === 'g1' ? { ...node, kind: 'end' as never } : node)),
      },
    ],
    [
      'of a place is taken out',
      {
        ...passing,
        places: [{ id: 'p1', name: 'Mill', order: 1, at: [{ edge: 'e1', toward: 'n2' }] } as never],
      },
    ],
    [
      'of a setting is taken out',
      {
        ...passing,
        settings: [
          {
            id: 's1',
            name: 'S',
            selectors: { K9: '1', K1: '9' },
            turnouts: { n1: 'normal' },
            toggles: { H1: true },
          } as never,
        ],
      },
    ],
  ];

  test.each(broken)('%s, one after the other until none is left', (_name, draft) => {
    let at = draft;
    for (let left = 9; left > 0 && fullAudit(at).some(({ code }) => code === 'broken-reference'); left -= 1)
      at = remedied(at, 'broken-reference').draft;
    expect(fullAudit(at).filter(({ code }) => code === 'broken-reference')).toEqual([]);
  });

  test('that needs a choice has no button', () => {
    const lost: DraftDocument = {
      ...passing,
      throttles: passing.throttles.map((throttle) => ({ ...throttle, supply: 'gone' as never })),
    };
    const finding = fullAudit(lost)[0];
    expect(finding === undefined ? null : remedyFor(finding, lost)).toBeNull();
  });
});
