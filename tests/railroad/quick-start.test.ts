/** The quick start: from every combination of answers a railroad that audits without an error, and on which a train can be moved. */
import { describe, expect, test } from 'vitest';
import { blockId } from '../../shared-model/ids.ts';
import { fullAudit } from '../../shared-model/power/audit.ts';
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';
import {
  FIRST_ANSWERS,
  MOST_LOOPS,
  MOST_SUPPLIES,
  MOST_THROTTLES,
  MOST_YARD_TRACKS,
  type QuickAnswers,
  quickAnswers,
  SCALES,
  SELECTORS_THERE,
} from '../../shared-model/railroad/quick-start/answers.ts';
import { firstRailroad } from '../../shared-model/railroad/quick-start/first-railroad.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { routesToBlock } from '../../shared-model/railroad/routes.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { type SessionInput, sessionInput } from '../../shared-model/session/input.ts';

const numbers = (least: number, most: number) =>
  Array.from({ length: most - least + 1 }, (_, index) => least + index);
const either = [false, true] as const;

/** Every combination of what is answered about the track. */
const tracks: readonly Partial<QuickAnswers>[] = numbers(1, MOST_LOOPS).flatMap((loops) =>
  (loops === 1 ? [false] : either).flatMap((joined) =>
    either.flatMap((siding) =>
      numbers(0, MOST_YARD_TRACKS).flatMap((yardTracks) =>
        either.map((reverseConnection) => ({ loops, joined, siding, yardTracks, reverseConnection })),
      ),
    ),
  ),
);
/** Every combination of what is answered about the power. */
const powers: readonly Partial<QuickAnswers>[] = (['three-rail-ac', 'two-rail-dc'] as const).flatMap(
  (system) =>
    SELECTORS_THERE.flatMap((selectors) =>
      numbers(1, MOST_THROTTLES).flatMap((throttles) =>
        numbers(1, Math.min(MOST_SUPPLIES, throttles)).map((supplies) => ({
          system,
          selectors,
          throttles,
          supplies,
        })),
      ),
    ),
);

const errorsOf = (document: RailroadDocument) =>
  fullAudit(document).filter(({ severity }) => severity === 'error');

/** What the engine answers when the first train asks to go from the first block to the second. */
function firstMove(document: RailroadDocument) {
  const railroad = indexRailroad(document);
  const gap = 'g2';
  const edge = document.edges.find(
    ({ id, between }) => between[1] === gap && railroad.blockOfEdge.get(id) === 'B1',
  );
  const inputs: readonly SessionInput[] = [
    { do: 'open-session' },
    { do: 'assign-cab', cab: '1', person: 'Ann' },
    { do: 'place-train', train: 't1', edge: edge?.id, toward: gap, cab: '1' },
    { do: 'start' },
    { do: 'request-move', train: 't1', to: 'B2' },
  ].map((input) => sessionInput.parse(input));
  let evening = newEvening(railroad);
  return inputs.map((input, at) => {
    const taken = take(evening, { at, input });
    evening = taken.evening;
    return taken.event.outcome;
  });
}

describe('every combination of answers', () => {
  test(`about the track (${tracks.length}) and the power (${powers.length}), with each other, audits without an error`, () => {
    const bad = tracks.flatMap((track) =>
      powers.flatMap((power) => {
        const answers = { ...FIRST_ANSWERS, ...track, ...power };
        return errorsOf(firstRailroad(answers)).map(({ code, about }) => ({ answers, code, about }));
      }),
    );
    expect(bad).toEqual([]);
  });

  test('yields a move that the engine grants', () => {
    const bad = tracks.flatMap((track) =>
      powers
        .map((power) => ({ ...FIRST_ANSWERS, ...track, ...power }))
        .filter((answers) => firstMove(firstRailroad(answers)).some((outcome) => outcome !== 'done')),
    );
    expect(bad).toEqual([]);
  });

  test.each(SCALES)('is as good in $name, since every length is to scale', ({ ratio }) => {
    for (const track of tracks) {
      const document = firstRailroad({ ...FIRST_ANSWERS, ...track, scaleRatio: ratio });
      expect(errorsOf(document)).toEqual([]);
      expect(fullAudit(document).map(({ code }) => code)).not.toContain('short-block');
    }
  });

  test('is a whole document, in the words of the file', () => {
    for (const track of tracks) {
      const document = firstRailroad({ ...FIRST_ANSWERS, ...track });
      expect(railroadDocument.parse(JSON.parse(JSON.stringify(document)))).toEqual(document);
    }
  });

  test('is drawn wider than high, no two ends on one spot, in lines that are level or rise one for one', () => {
    for (const track of tracks) {
      const { nodes, edges } = firstRailroad({ ...FIRST_ANSWERS, ...track });
      const drawn = nodes.flatMap((node) => (node.alsoAt === undefined ? [node.at] : [node.at, node.alsoAt]));
      expect(new Set(drawn.map(String)).size).toBe(drawn.length);
      const [xs, ys] = [drawn.map(([x]) => x), drawn.map(([, y]) => y)];
      expect(Math.max(...xs) - Math.min(...xs)).toBeGreaterThan(2.5 * (Math.max(...ys) - Math.min(...ys)));
      const at = (id: string, edge: string) => {
        const node = nodes.find((each) => each.id === id);
        const second = edges.filter(({ between }) => between.some((end) => end === id))[1]?.id === edge;
        return (second ? node?.alsoAt : undefined) ?? node?.at ?? [Number.NaN, Number.NaN];
      };
      for (const { id, between, shape } of edges) {
        const line = [at(between[0], id), ...(shape ?? []), at(between[1], id)];
        for (const [index, [x, y]] of line.slice(1).entries()) {
          const [fromX, fromY] = line[index] ?? [Number.NaN, Number.NaN];
          const [dx, dy] = [Math.abs(x - fromX), Math.abs(y - fromY)];
          expect([0, dx]).toContain(dy);
        }
      }
    }
  });
});

describe('what was answered is there', () => {
  const count = (document: RailroadDocument) => ({
    selectors: document.selectors.length,
    straight: document.blocks.filter(({ source }) => 'throttle' in source).length,
    toggles: document.toggles.length,
    supplies: document.supplies.length,
    throttles: document.throttles.length,
  });
  const asked = { ...FIRST_ANSWERS, loops: 2, siding: true, yardTracks: 3, throttles: 3, supplies: 2 };

  test('all selectors: one for each block of the loops, the siding and the lead; the yard tracks hang on toggles', () => {
    expect(count(firstRailroad({ ...asked, selectors: 'all' }))).toEqual({
      selectors: 10,
      straight: 0,
      toggles: 3,
      supplies: 2,
      throttles: 3,
    });
  });

  test('some selectors: those of the first two blocks of each loop', () => {
    expect(count(firstRailroad({ ...asked, selectors: 'some' }))).toMatchObject({
      selectors: 4,
      straight: 6,
    });
  });

  test('no selectors: each loop on a throttle of its own', () => {
    const document = firstRailroad({ ...asked, selectors: 'none' });
    expect(count(document)).toMatchObject({ selectors: 0, straight: 10 });
    expect(document.blocks[0]?.source).toEqual({ throttle: '1' });
    expect(document.blocks[4]?.source).toEqual({ throttle: '2' });
  });

  test('joined loops: a train goes over, and comes back without a reversal', () => {
    const railroad = indexRailroad(firstRailroad({ ...asked, joined: true }));
    const on = (block: string) => {
      const edge = railroad.document.edges.find(({ id }) => railroad.blockOfEdge.get(id) === block);
      if (edge === undefined) throw new Error(`no track in ${block}`);
      return { edge: edge.id, toward: edge.between[1] };
    };
    const [outer, inner] = [on('B1'), on('B5')];
    expect(routesToBlock(railroad, outer, blockId.parse('B6'))).not.toEqual([]);
    expect(routesToBlock(railroad, inner, blockId.parse('B2'))).not.toEqual([]);
  });

  test('a reverse connection turns trains round', () => {
    const codes = (reverseConnection: boolean) =>
      fullAudit(firstRailroad({ ...asked, reverseConnection })).map(({ code }) => code);
    expect(codes(true)).toContain('reversing-section');
    expect(codes(false)).not.toContain('reversing-section');
  });

  test('more supplies than throttles is no answer', () => {
    const read = quickAnswers.safeParse({ ...FIRST_ANSWERS, throttles: 1, supplies: 2 });
    expect(read.error?.issues.map(({ path, message }) => [path, message])).toEqual([
      [['supplies'], 'expected no more supplies than throttles'],
    ]);
  });
});
