/** Names in an input that do not exist on this railroad tonight: a mistake of the input, told before any rule is asked. */
import type { BlockId, EdgeId, NodeId } from '../ids.ts';
import { LISTS } from '../railroad/document.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { isThrown } from '../railroad/travel.ts';
import type { PlainOrder, SessionInput } from './input.ts';
import type { SessionState } from './state.ts';

type Field =
  | 'train'
  | 'other'
  | 'cut'
  | 'cab'
  | 'toCab'
  | 'block'
  | 'selector'
  | 'turnout'
  | 'toggle'
  | 'setting'
  | 'supply'
  | 'a'
  | 'b';

type Known = (railroad: Railroad, state: SessionState, id: string) => boolean;

const inList =
  (list: 'selectors' | 'toggles' | 'throttles' | 'supplies' | 'blocks' | 'settings'): Known =>
  ({ document }, _state, id) =>
    document[list].some((thing) => thing.id === id);
const isTrain: Known = (_railroad, state, id) => Object.hasOwn(state.trains, id);
const isCut: Known = (_railroad, state, id) => Object.hasOwn(state.cuts, id);
const isTurnout: Known = ({ nodes }, _state, id) => {
  const node = nodes.get(id as NodeId);
  return node !== undefined && isThrown(node);
};
const isDestination: Known = ({ blocks, edges, document }, _state, id) =>
  blocks.has(id as BlockId) || edges.has(id as EdgeId) || document.places.some((place) => place.id === id);
const isInDocument: Known = ({ document }, _state, id) =>
  LISTS.some((list) => document[list].some((thing) => thing.id === id));
const isThing: Known = (railroad, state, id) =>
  isInDocument(railroad, state, id) || isTrain(railroad, state, id) || isCut(railroad, state, id);

/** What each field names, in words and as a test. */
const FIELDS: Record<Field, readonly [string, Known]> = {
  train: ['a train', isTrain],
  other: ['a train', isTrain],
  cut: ['a cut', isCut],
  cab: ['a throttle', inList('throttles')],
  toCab: ['a throttle', inList('throttles')],
  block: ['a block', inList('blocks')],
  selector: ['a selector', inList('selectors')],
  turnout: ['a turnout', isTurnout],
  toggle: ['a toggle', inList('toggles')],
  setting: ['a setting', inList('settings')],
  supply: ['a supply', inList('supplies')],
  a: ['a supply', inList('supplies')],
  b: ['a supply', inList('supplies')],
};

const wrongName = (path: string, what: string, id: string): string =>
  `$.${path}: expected ${what} of this railroad, not "${id}"`;

type Ask = (path: string, what: string, known: Known, id: string) => string | null;

function plainFields(input: Record<string, unknown>, ask: Ask, skip: readonly string[]): string | null {
  for (const [field, [what, known]] of Object.entries(FIELDS)) {
    const id = input[field];
    if (typeof id !== 'string' || skip.includes(field)) continue;
    const problem = ask(field, what, known, id);
    if (problem !== null) return problem;
  }
  return null;
}

function listFields(input: SessionInput, ask: Ask): string | null {
  const lists: [string, string, Known, readonly string[]][] = [];
  if (input.do === 'request-move') {
    lists.push(
      ['via', 'a block', FIELDS.block[1], input.via ?? []],
      ['together', 'a train', isTrain, input.together ?? []],
    );
    if (input.joining !== undefined)
      lists.push([
        'joining',
        'a train or a cut',
        (r, s, id) => isTrain(r, s, id) || isCut(r, s, id),
        [input.joining],
      ]);
  }
  if (input.do === 'grant-limits') lists.push(['blocks', 'a block', FIELDS.block[1], input.blocks]);
  if (input.do === 'request-move' || input.do === 'declare')
    lists.push(['to', 'a block, an edge or a place', isDestination, [input.to]]);
  if (input.do === 'tag' || input.do === 'untag') lists.push(['thing', 'a thing', isThing, [input.thing]]);
  for (const [path, what, known, ids] of lists)
    for (const [index, id] of ids.entries()) {
      const problem = ask(ids.length > 1 || path.endsWith('s') ? `${path}[${index}]` : path, what, known, id);
      if (problem !== null) return problem;
    }
  return null;
}

/** An edge and the node that a train on it faces. */
function spotProblem(railroad: Railroad, input: SessionInput): string | null {
  if (!('edge' in input)) return null;
  const edge = railroad.edges.get(input.edge);
  if (edge === undefined) return wrongName('edge', 'an edge', input.edge);
  if (edge.between.includes(input.toward)) return null;
  return `$.toward: expected one of the ends of edge ${input.edge} (${edge.between.join(' or ')}), not "${input.toward}"`;
}

function positionProblem(railroad: Railroad, input: SessionInput): string | null {
  if (input.do !== 'turn-selector' && input.do !== 'selector-stands-at') return null;
  const { position } = input;
  if (position === null) return null;
  if (position !== 'off' && !railroad.throttles.has(position))
    return wrongName('position', '"off" or a throttle', position);
  const dial = railroad.selectors.get(input.selector)?.positions ?? [];
  if (input.do === 'turn-selector' || dial.includes(position)) return null;
  return `$.position: expected a position on the dial of ${input.selector} (${dial.filter((at) => at !== null).join(', ')}), not "${position}"`;
}

/** A name that an input brings in must not be that of something else. */
function newNameProblem(railroad: Railroad, state: SessionState, input: SessionInput): string | null {
  const fresh =
    input.do === 'add-train'
      ? (['train', input.train] as const)
      : input.do === 'set-out'
        ? (['cut', input.cut] as const)
        : null;
  if (fresh === null) return null;
  const [field, id] = fresh;
  const own = input.do === 'add-train' ? isTrain : isCut;
  return isThing(railroad, state, id) && !own(railroad, state, id)
    ? `$.${field}: expected a new id, but "${id}" is something else on this railroad`
    : null;
}

function plainProblem(
  railroad: Railroad,
  state: SessionState,
  input: Exclude<SessionInput, { do: 'override' }> | PlainOrder,
): string | null {
  const ask: Ask = (path, what, known, id) => (known(railroad, state, id) ? null : wrongName(path, what, id));
  const skip = input.do === 'add-train' ? ['train'] : input.do === 'set-out' ? ['cut'] : [];
  const same =
    input.do === 'phase-measured' && input.a === input.b ? '$.b: expected a supply other than a' : null;
  return (
    plainFields(input, ask, skip) ??
    listFields(input, ask) ??
    spotProblem(railroad, input) ??
    positionProblem(railroad, input) ??
    newNameProblem(railroad, state, input) ??
    same
  );
}

/**
 * Names something that an input speaks of and that does not exist (authority numbers excepted: those are refused as not now).
 *
 * @returns one line with the path of the field and what was expected; null when every name exists
 */
export function problemWith(railroad: Railroad, state: SessionState, input: SessionInput): string | null {
  if (input.do !== 'override') return plainProblem(railroad, state, input);
  const inside = plainProblem(railroad, state, input.order);
  return inside === null ? null : inside.replace('$.', '$.order.');
}
