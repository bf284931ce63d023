/**
 * The drawing board with a railroad of 400 blocks, in a real browser: from an edit to the frame that shows it. Measured in the page,
 * from the key stroke to the first frame after its changes have been laid out and painted.
 */
import { cpus, loadavg } from 'node:os';
import type { Page } from 'playwright';
import { type Bench, percentile, timed } from '../../build/bench-report.ts';
import { toPixels, wholeSight } from '../../renderer/drawing-board/drawing/sight.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { applyEdit } from '../../shared-model/railroad/editing/edit.ts';
import { editBetween } from '../../shared-model/railroad/editing/edit-between.ts';
import { cutEdge } from '../../shared-model/railroad/editing/split-edge.ts';
import { askHost, goToDrawing, openConsolePage } from '../support/console-page.ts';
import { stationRailroad } from '../support/station-railroad.ts';

const BLOCKS = 400;
const EDITS = 60;
const WARM_UP = 8;
const MOST_MS = 50;
const DRAG_STEPS = 40;
/** The first steps of a drag begin it: they only bring the pointer beyond what counts as a press. */
const BEGINNING = 2;
/** A busy machine may take long to open the page; that is not what is measured. */
const OPENING_MS = 120_000;

/** Rows of nodes, so that the generated track can be seen: what is drawn is as long, whatever its shape. */
function laidOut() {
  const document = stationRailroad(BLOCKS, { blocks: BLOCKS, trains: 10, ring: true });
  const nodes = document.nodes.map((node, index) => ({
    ...node,
    at: [(index % 60) * 2, Math.floor(index / 60) * 3] as [number, number],
  }));
  return { ...document, nodes };
}

type Spot = readonly [x: number, y: number];

/** Drags with the pointer by whole squares, and times each step from its event to the frame that shows it. */
async function dragTimes(page: Page, from: Spot, squarePx: number): Promise<readonly number[]> {
  await page.evaluate(() => {
    const sheet = globalThis.document.querySelector('[role=application]');
    const times: number[] = [];
    const told = (event: Event) =>
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => times.push(performance.now() - event.timeStamp);
        port2.postMessage(null);
      });
    sheet?.addEventListener('pointermove', told, { capture: true });
    Object.assign(globalThis, {
      dragged: () => {
        sheet?.removeEventListener('pointermove', told, { capture: true });
        return times;
      },
    });
  });
  const [x, y] = from;
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 1; step <= DRAG_STEPS; step += 1) {
    // To and fro, so that the way is as long as one likes on a sheet of any size.
    const squares = step % 20 < 10 ? step % 10 : 10 - (step % 10);
    await page.mouse.move(x + squares * squarePx, y + squares * squarePx);
    await page.waitForTimeout(60);
  }
  await page.mouse.up();
  const all = await page.evaluate(() => (globalThis as unknown as { dragged: () => number[] }).dragged());
  // The first move is that of the pointer to the spot.
  return all.slice(1 + BEGINNING);
}

/** Where some spots of a drawing that is in view as a whole are on the screen, and how many pixels a square has. */
async function screenOf(page: Page, document: RailroadDocument) {
  const box = await page.getByRole('application').boundingBox();
  if (box === null) throw new Error('there is no sheet');
  const sight = wholeSight(document, box);
  const at = (spot: Spot): Spot => {
    const [x, y] = toPixels(sight, spot);
    return [box.x + x, box.y + y];
  };
  return { squarePx: sight.scale, at };
}

export const run: Bench = async (report) => {
  report.about(`the drawing board with ${BLOCKS} blocks: one edit, from the key stroke to its painted frame`);
  const document = laidOut();
  const { page, close } = await openConsolePage();
  page.setDefaultTimeout(OPENING_MS);
  try {
    const { id } = await askHost(page, 'railroads.saveDraft', { id: null, name: document.name, document });
    await goToDrawing(page, id, 'track');
    await page.getByRole('application').waitFor();
    await page.getByRole('application').focus();
    await page.waitForTimeout(2000);
    const cdp = await page.context().newCDPSession(page);
    await cdp.send('Performance.enable', { timeDomain: 'threadTicks' });
    /** Processor time of the page's own thread so far, in milliseconds. */
    const threadMs = async () => {
      const { metrics } = await cdp.send('Performance.getMetrics');
      return (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? 0) * 1000;
    };
    const before = await threadMs();
    const times = await page.evaluate(
      async ({ edits, warmUp }) => {
        const sheet = globalThis.document.querySelector<HTMLElement>('[role=application]');
        if (sheet === null) throw new Error('there is no sheet');
        const press = (key: string) =>
          sheet.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
        /** Runs when the next frame has been painted: a task after its animation callbacks. */
        const painted = () =>
          new Promise<number>((resolve) =>
            requestAnimationFrame(() => {
              const { port1, port2 } = new MessageChannel();
              port1.onmessage = () => resolve(performance.now());
              port2.postMessage(null);
            }),
          );
        const all: number[] = [];
        for (let edit = -warmUp; edit < edits; edit += 1) {
          // A gap cut or mended at the cursor, then on to the next node.
          const start = performance.now();
          press('g');
          const ms = (await painted()) - start;
          if (edit >= 0) all.push(ms);
          press('ArrowRight');
          press('ArrowRight');
          await painted();
          await new Promise((resolve) => setTimeout(resolve, 40));
        }
        return all;
      },
      { edits: EDITS, warmUp: WARM_UP },
    );
    const perEdit = ((await threadMs()) - before) / (EDITS + WARM_UP);
    const pure = document.edges.slice(0, EDITS).map(
      ({ id: edge }) =>
        timed(() => {
          const outcome = cutEdge(document, edge, 0.5);
          return outcome.ok ? applyEdit(document, editBetween(document, outcome.draft, 'gap')) : null;
        }).ms,
    );
    report.table([
      {
        edits: times.length,
        'p50 ms': percentile(times, 50),
        'p95 ms': percentile(times, 95),
        'thread ms an edit': perEdit,
        'model alone p50': percentile(pure, 50),
        'model alone p95': percentile(pure, 95),
      },
    ]);
    const [busy = 0] = loadavg();
    report.says(
      `  ${busy.toFixed(1)} processes wanted one of ${cpus().length} processors meanwhile: above that number the frames wait for others, and only the thread's own time counts. It includes the cursor's two moves, the names and the keeping after an edit.`,
    );
    report.mustReach(`one edit to paint at ${BLOCKS} blocks, p95 in ms`, percentile(times, 95), {
      atMost: MOST_MS,
    });
    await page.keyboard.press('Home');
    const { at, squarePx } = await screenOf(page, document);
    const node = document.nodes[Math.floor(document.nodes.length / 2)]?.at ?? [0, 0];
    const edge = document.edges.find(
      ({ between: [one] }) => document.nodes.find(({ id: each }) => each === one)?.at === node,
    );
    const far = document.nodes.find(({ id: each }) => each === edge?.between[1])?.at ?? node;
    const middle: Spot = [(node[0] + far[0]) / 2, (node[1] + far[1]) / 2];
    const drags = [
      ['a new edge', 'draws', [node[0] + 1, node[1] + 1.5]],
      ['a node moved', 'arranges', node],
      ['an edge bent', 'arranges', middle],
    ] as const;
    for (const [what, hand, spot] of drags) {
      await page.getByRole('radio', { name: hand }).check({ force: true });
      const threadBefore = await threadMs();
      const steps = await dragTimes(page, at(spot), squarePx);
      report.table([
        {
          drag: what,
          steps: steps.length,
          'p50 ms': percentile(steps, 50),
          'p95 ms': percentile(steps, 95),
          'thread ms a step': ((await threadMs()) - threadBefore) / DRAG_STEPS,
        },
      ]);
      report.mustReach(
        `${what} by dragging at ${BLOCKS} blocks, one step to paint, p95 in ms`,
        percentile(steps, 95),
        {
          atMost: MOST_MS,
        },
      );
    }
  } finally {
    await close();
  }
};
