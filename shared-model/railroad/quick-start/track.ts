/**
 * The track of a first railroad, stretched out: each loop is a level line whose two ends are one gap, siding and connection lie above
 * the first loop, the yard below the last. Diagonals rise one for one. Lengths are those of 1:48 and are scaled afterwards.
 */
import type { Millimetres } from '../../units.ts';
import type { QuickAnswers } from './answers.ts';
import { EMPTY_SKETCH, type Sketch, type SketchBlock, type SketchNode, together } from './sketch.ts';

/** Columns of the gaps between the four blocks of a loop; the last is the first again. */
const GAPS = [0, 18, 29, 47, 66] as const;
const LOOP_ROWS = 4;
const FIRST_LOOP_ROW = 4;
/** What one column of a loop's line is long: four blocks of 2 to 3.4 m at 1:48. */
const COLUMN: Millimetres = 180;
const LEG: Millimetres = 300;
const SIDING: Millimetres = 1800;
const CONNECTION: Millimetres = 2800;
const LEAD: Millimetres = 1500;
const YARD_TRACK: Millimetres = 1900;
const YARD_END = 34;

const SIDES = ['West', 'North', 'East', 'South'] as const;
const LOOP_NAMES = [[''], ['Outer ', 'Inner '], ['Outer ', 'Middle ', 'Inner ']] as const;

const rowOf = (loop: number) => FIRST_LOOP_ROW + LOOP_ROWS * loop;
const gapName = (loop: number, side: number) => `gap ${loop} ${side % SIDES.length}`;

/** A turnout somewhere on a loop: which way its points end lies, and where its reverse leg leads. */
interface OnLoop {
  readonly name: string;
  readonly column: number;
  readonly trunk: 'west' | 'east';
  readonly reverse: string;
}

/**
 * Crossovers A lead east from a loop to the next one, B east from the next one back. Each turnout lies so far inside its block that a
 * train which comes in at the points and stops at the crossover's gap has its whole length in the block.
 */
function crossoverTurnouts(answers: QuickAnswers, loop: number): readonly OnLoop[] {
  if (!answers.joined) return [];
  const lower: readonly OnLoop[] =
    loop + 1 >= answers.loops
      ? []
      : [
          { name: `A ${loop} off`, column: 7, trunk: 'west', reverse: `A ${loop} gap` },
          { name: `B ${loop} on`, column: 40, trunk: 'east', reverse: `B ${loop} gap` },
        ];
  const above = loop - 1;
  const upper: readonly OnLoop[] =
    loop === 0
      ? []
      : [
          { name: `A ${above} on`, column: 11, trunk: 'east', reverse: `A ${above} gap` },
          { name: `B ${above} off`, column: 36, trunk: 'west', reverse: `B ${above} gap` },
        ];
  return [...lower, ...upper];
}

function turnoutsOf(answers: QuickAnswers, loop: number): readonly OnLoop[] {
  const first = loop === 0;
  const last = loop === answers.loops - 1;
  return [
    ...crossoverTurnouts(answers, loop),
    ...(first && answers.siding
      ? [
          { name: 'siding west', column: 15, trunk: 'west', reverse: 'siding gap west' } as const,
          { name: 'siding east', column: 32, trunk: 'east', reverse: 'siding gap east' } as const,
        ]
      : []),
    ...(first && answers.reverseConnection
      ? [
          { name: 'connection off', column: 44, trunk: 'west', reverse: 'connection gap off' } as const,
          { name: 'connection on', column: 52, trunk: 'west', reverse: 'connection gap on' } as const,
        ]
      : []),
    ...(last && answers.yardTracks > 0
      ? [{ name: 'yard turnout', column: 58, trunk: 'east', reverse: 'yard gap' } as const]
      : []),
  ].sort((one, other) => one.column - other.column);
}

function loopSketch(answers: QuickAnswers, loop: number): Sketch {
  const row = rowOf(loop);
  const turnouts = turnoutsOf(answers, loop);
  const stops = [
    ...GAPS.map((column, side) => ({ name: gapName(loop, side), column })),
    ...turnouts.map(({ name, column }) => ({ name, column })),
  ].sort((one, other) => one.column - other.column);
  const pairs = stops.flatMap((from, index) => {
    const to = stops[index + 1];
    return to === undefined ? [] : [{ from, to }];
  });
  const beside = (name: string, way: 'west' | 'east') => {
    const at = stops.findIndex((stop) => stop.name === name);
    return stops[at + (way === 'west' ? -1 : 1)]?.name ?? '';
  };
  const name = LOOP_NAMES[answers.loops - 1]?.[loop] ?? '';
  const blocks = SIDES.map((side, index): SketchBlock => {
    const inside = pairs.filter(
      ({ from, to }) => from.column >= (GAPS[index] ?? 0) && to.column <= (GAPS[index + 1] ?? 0),
    );
    const longest = inside.reduce((best, pair) =>
      pair.to.column - pair.from.column > best.to.column - best.from.column ? pair : best,
    );
    return {
      name: name === '' ? side : `${name}${side.toLowerCase()}`,
      loop,
      feeder: [longest.from.name, longest.to.name],
      early: index < 2,
    };
  });
  const gaps = GAPS.slice(0, -1).map(
    (column, side): SketchNode => ({
      name: gapName(loop, side),
      kind: 'gap',
      at: [column, row],
      ...(side === 0 ? { alsoAt: [GAPS[4], row] as const } : {}),
    }),
  );
  return {
    nodes: [
      ...gaps,
      ...turnouts.map(
        ({ name: turnout, column, trunk, reverse }): SketchNode => ({
          name: turnout,
          kind: 'turnout',
          at: [column, row],
          trunk: beside(turnout, trunk),
          normal: beside(turnout, trunk === 'west' ? 'east' : 'west'),
          reverse,
        }),
      ),
    ],
    edges: pairs.map(({ from, to }) => ({
      from: from.name,
      to: to.name,
      length: COLUMN * (to.column - from.column),
    })),
    blocks,
    places: loop === 0 ? [{ name: 'Station', tracks: [[beside(gapName(0, 2), 'west'), gapName(0, 2)]] }] : [],
  };
}

function crossovers(upper: number): Sketch {
  const row = rowOf(upper) + LOOP_ROWS / 2;
  return {
    ...EMPTY_SKETCH,
    nodes: [
      { name: `A ${upper} gap`, kind: 'gap', at: [9, row] },
      { name: `B ${upper} gap`, kind: 'gap', at: [38, row] },
    ],
    edges: ['A', 'B'].flatMap((which) => [
      { from: `${which} ${upper} off`, to: `${which} ${upper} gap`, length: LEG },
      { from: `${which} ${upper} gap`, to: `${which} ${upper} on`, length: LEG },
    ]),
  };
}

const siding: Sketch = {
  nodes: [
    { name: 'siding gap west', kind: 'gap', at: [18, FIRST_LOOP_ROW - 3] },
    { name: 'siding gap east', kind: 'gap', at: [29, FIRST_LOOP_ROW - 3] },
  ],
  edges: [
    { from: 'siding west', to: 'siding gap west', length: LEG },
    { from: 'siding gap west', to: 'siding gap east', length: SIDING },
    { from: 'siding gap east', to: 'siding east', length: LEG },
  ],
  blocks: [{ name: 'Siding', loop: 0, feeder: ['siding gap west', 'siding gap east'], early: false }],
  places: [{ name: 'Siding', tracks: [['siding gap west', 'siding gap east']] }],
};

const connection: Sketch = {
  ...EMPTY_SKETCH,
  nodes: [
    { name: 'connection gap off', kind: 'gap', at: [46, FIRST_LOOP_ROW - 2] },
    { name: 'connection gap on', kind: 'gap', at: [53, FIRST_LOOP_ROW - 1] },
  ],
  edges: [
    { from: 'connection off', to: 'connection gap off', length: LEG },
    {
      from: 'connection gap off',
      to: 'connection gap on',
      length: CONNECTION,
      shape: [
        [47, FIRST_LOOP_ROW - 3],
        [53, FIRST_LOOP_ROW - 3],
        [54, FIRST_LOOP_ROW - 2],
      ],
    },
    { from: 'connection gap on', to: 'connection on', length: LEG },
  ],
  blocks: [
    { name: 'Connection', loop: 0, feeder: ['connection gap off', 'connection gap on'], early: false },
  ],
};

/** One track is a block behind the yard's gap; more hang on a lead with a ladder of turnouts, each behind a toggle. */
function yard(loop: number, tracks: number): Sketch {
  const row = rowOf(loop) + 3;
  const gap: SketchNode = { name: 'yard gap', kind: 'gap', at: [55, row] };
  const entry = { from: 'yard turnout', to: 'yard gap', length: LEG };
  if (tracks === 1)
    return {
      nodes: [gap, { name: 'yard end 0', kind: 'end', at: [YARD_END, row] }],
      edges: [entry, { from: 'yard gap', to: 'yard end 0', length: YARD_TRACK }],
      blocks: [{ name: 'Yard', loop, feeder: ['yard gap', 'yard end 0'], early: false }],
      places: [{ name: 'Yard', tracks: [['yard gap', 'yard end 0']] }],
    };
  const numbers = Array.from({ length: tracks }, (_, track) => track);
  const ladder = numbers.slice(1);
  const comesFrom = (turnout: number) => (turnout === 0 ? 'yard gap' : `ladder ${turnout - 1}`);
  const trackStart = (track: number) => `ladder ${Math.min(track, tracks - 2)}`;
  return {
    nodes: [
      gap,
      ...ladder.map(
        (_, index): SketchNode => ({
          name: `ladder ${index}`,
          kind: 'turnout',
          at: [52 - 2 * index, row + 2 * index],
          trunk: comesFrom(index),
          normal: `track gap ${index}`,
          reverse: index === tracks - 2 ? `track gap ${index + 1}` : `ladder ${index + 1}`,
        }),
      ),
      ...numbers.flatMap((track): SketchNode[] => [
        {
          name: `track gap ${track}`,
          kind: 'gap',
          at: [track === tracks - 1 ? 52 - 2 * track : 48 - 2 * track, row + 2 * track],
        },
        { name: `yard end ${track}`, kind: 'end', at: [YARD_END, row + 2 * track] },
      ]),
    ],
    edges: [
      entry,
      ...ladder.map((_, index) => ({
        from: comesFrom(index),
        to: `ladder ${index}`,
        length: index === 0 ? LEAD : LEG,
      })),
      ...numbers.flatMap((track) => [
        { from: trackStart(track), to: `track gap ${track}`, length: LEG },
        { from: `track gap ${track}`, to: `yard end ${track}`, length: YARD_TRACK },
      ]),
    ],
    blocks: [
      { name: 'Yard lead', loop, feeder: ['yard gap', 'ladder 0'], early: false },
      ...numbers.map((track) => ({
        name: `Yard ${track + 1}`,
        loop,
        feeder: [`track gap ${track}`, `yard end ${track}`] as const,
        early: false,
        behind: 'Yard lead',
      })),
    ],
    places: [
      {
        name: 'Yard',
        tracks: numbers.map((track) => [`track gap ${track}`, `yard end ${track}`] as const),
      },
    ],
  };
}

/** The sketch of all the track that the answers tell of. */
export function trackSketch(answers: QuickAnswers): Sketch {
  const loops = Array.from({ length: answers.loops }, (_, loop) => loop);
  return together(
    ...loops.map((loop) => loopSketch(answers, loop)),
    ...(answers.joined ? loops.slice(1).map((loop) => crossovers(loop - 1)) : []),
    answers.siding ? siding : EMPTY_SKETCH,
    answers.reverseConnection ? connection : EMPTY_SKETCH,
    answers.yardTracks > 0 ? yard(answers.loops - 1, answers.yardTracks) : EMPTY_SKETCH,
  );
}
