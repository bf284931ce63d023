/** `cabward route`: the ways of a train to a block, what they need set, and what would refuse them to a cab. */
import type { BlockId, ThrottleId } from '../../shared-model/ids.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Route } from '../../shared-model/railroad/route.ts';
import { type RouteOptions, routesToBlock } from '../../shared-model/railroad/routes.ts';
import type { Spot } from '../../shared-model/railroad/travel.ts';
import type { Refusal } from '../../shared-model/refusal.ts';
import { isWiredFor, rootSelector } from '../../shared-model/session/facts/feed.ts';
import { initialState } from '../../shared-model/session/initial.ts';
import { feedReasons } from '../../shared-model/session/rules/block-reasons.ts';
import { type Answer, inputError } from './answer.ts';
import { readNumbers } from './number-option.ts';
import { readRunnableRailroad } from './runnable-railroad.ts';

/** The options as they were typed. */
export interface RouteCall {
  readonly trainAt?: string | undefined;
  readonly to?: string | undefined;
  readonly cab?: string | undefined;
  readonly avoid?: string | undefined;
  readonly reversals?: string | undefined;
  readonly alternatives?: string | undefined;
  readonly trainLength?: string | undefined;
}

const REVERSALS = { least: 0, most: 20, whole: true, unit: 'reversals' } as const;
const ALTERNATIVES = { least: 1, most: 100, whole: true, unit: 'routes' } as const;
const LENGTH = { least: 0, most: 10_000_000, unit: 'millimetres' } as const;

/** What was asked, every name looked up. */
interface Question {
  readonly from: Spot;
  readonly to: BlockId;
  readonly cab: ThrottleId | null;
  readonly options: RouteOptions;
}
type Read =
  | { readonly ok: true; readonly question: Question }
  | { readonly ok: false; readonly says: string };

const wrong = (says: string): Read => ({ ok: false, says });

function readSpot(railroad: Railroad, text: string | undefined): Spot | string {
  if (text === undefined) return '--train-at: expected EDGE:TOWARD, but it is missing';
  for (const { id, between } of railroad.document.edges) {
    const toward = between.find((node) => `${id}:${node}` === text);
    if (toward !== undefined) return { edge: id, toward };
    if (text.startsWith(`${id}:`))
      return `--train-at: expected ${id}:${between[0]} or ${id}:${between[1]}, not "${text}"`;
  }
  return `--train-at: expected EDGE:TOWARD, an edge of the railroad and one of its two nodes, not "${text}"`;
}

const findId = <Id extends string>(list: readonly { readonly id: Id }[], text: string): Id | undefined =>
  list.find(({ id }) => id === text)?.id;

function readQuestion(railroad: Railroad, call: RouteCall): Read {
  const { blocks, throttles } = railroad.document;
  const from = readSpot(railroad, call.trainAt);
  if (typeof from === 'string') return wrong(from);
  if (call.to === undefined) return wrong('--to: expected a block, but it is missing');
  const to = findId(blocks, call.to);
  if (to === undefined) return wrong(`--to: expected a block of the railroad, not "${call.to}"`);
  const cab = call.cab === undefined ? null : findId(throttles, call.cab);
  if (cab === undefined) return wrong(`--cab: expected a throttle of the railroad, not "${call.cab}"`);
  const avoid: BlockId[] = [];
  for (const name of call.avoid?.split(',') ?? []) {
    const block = findId(blocks, name);
    if (block === undefined)
      return wrong(`--avoid: expected blocks of the railroad, parted by commas, not "${name}"`);
    avoid.push(block);
  }
  const numbers = readNumbers({
    reversals: ['--reversals', call.reversals ?? '0', REVERSALS],
    alternatives: ['--alternatives', call.alternatives ?? '1', ALTERNATIVES],
    trainLengthMm: ['--train-length', call.trainLength ?? '0', LENGTH],
  });
  if (!numbers.ok) return numbers;
  return { ok: true, question: { from, to, cab, options: { ...numbers.values, avoid: new Set(avoid) } } };
}

/** The position at which the selector of each block of a route has to stand, the root's for a section behind a toggle. */
function selectorsFor(
  railroad: Railroad,
  route: Route,
  cab: ThrottleId | null,
): Readonly<Record<string, string>> {
  if (cab === null) return {};
  return Object.fromEntries(
    route.blocks.flatMap((block) => {
      const selector = rootSelector(railroad, block);
      return selector !== null && isWiredFor(railroad, block, cab) ? [[selector, cab]] : [];
    }),
  );
}

/** What the wiring alone refuses a cab on a route, by block in route order; no phase check is known to the command line. */
function wiringRefusals(railroad: Railroad, route: Route, cab: ThrottleId): readonly Refusal[] {
  const world = { railroad, state: initialState(railroad) };
  const all = route.stretches.slice(1).flatMap(({ block, gap }) => feedReasons(world, block, cab, gap));
  const key = ({ code, about }: Refusal): string => [code, ...about].join(' ');
  return [...new Map(all.map((refusal) => [key(refusal), refusal])).values()];
}

function noRoute(railroad: Railroad, { from, to, options }: Question): Refusal {
  const without = [...(options.avoid ?? [])];
  const around = without.length === 0 ? '' : ` without entering ${without.join(', ')}`;
  const reversals = (options.reversals ?? 0) + 1;
  const [other] = routesToBlock(railroad, from, to, { ...options, reversals });
  const hint =
    other === undefined
      ? 'Nor does one with another reversal.'
      : `With ${other.reversals.length === 1 ? 'a reversal' : `${other.reversals.length} reversals`} one does: ${other.edges.join(' ')}.`;
  return {
    code: 'no-route',
    about: [to],
    says: `No track leads from ${from.edge}, facing ${from.toward}, to a far end of ${to}${around}. ${hint}`,
  };
}

const routeJson = (railroad: Railroad, route: Route, cab: ThrottleId | null) => ({
  edges: route.edges,
  blocks: route.blocks,
  length: route.lengthMm,
  turnouts: Object.fromEntries(route.turnouts.map(({ id, position }) => [id, position])),
  selectors: selectorsFor(railroad, route, cab),
  reversals: route.reversals,
});

function routeLines(railroad: Railroad, route: Route, cab: ThrottleId | null): readonly string[] {
  const selectors = Object.entries(selectorsFor(railroad, route, cab));
  return [
    `${Number(route.lengthMm.toFixed(1))} mm over ${route.blocks.join(', ')}`,
    `  edges: ${route.edges.join(' ')}`,
    ...(route.turnouts.length === 0
      ? []
      : [`  turnouts: ${route.turnouts.map(({ id, position }) => `${id} ${position}`).join(', ')}`]),
    ...(selectors.length === 0
      ? []
      : [`  selectors: ${selectors.map(([id, position]) => `${id} to ${position}`).join(', ')}`]),
    ...route.reversals.map(
      ({ edge, toward }) => `  reversal: on ${edge} at ${toward}, the whole train clear of the turnout`,
    ),
  ];
}

/** The answer for a railroad whose references are whole; exit status 1 when there is no route or something refuses the first. */
export function routeAnswer(railroad: Railroad, call: RouteCall): Answer {
  const read = readQuestion(railroad, call);
  if (!read.ok) return inputError(read.says);
  const { from, to, cab, options } = read.question;
  const routes = routesToBlock(railroad, from, to, options);
  const [best] = routes;
  const refusals =
    best === undefined
      ? [noRoute(railroad, read.question)]
      : cab === null
        ? []
        : wiringRefusals(railroad, best, cab);
  return {
    exit: refusals.length > 0 ? 1 : 0,
    json: { routes: routes.map((route) => routeJson(railroad, route, cab)), refusals },
    text: [
      ...routes.flatMap((route) => routeLines(railroad, route, cab)),
      ...refusals.map(({ code, says }) => `refused, ${code}: ${says}`),
    ].join('\n'),
  };
}

/** Finds routes on a railroad file. */
export function route(railroadFile: string, call: RouteCall): Answer {
  const railroad = readRunnableRailroad(railroadFile);
  return railroad.ok ? routeAnswer(railroad.value, call) : railroad.answer;
}
