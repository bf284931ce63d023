/** Lines that begin with a knob, a turnout, a toggle, a cab or a block: `k4 2` (order), `k4 is 3` (observation), `c2 Kim`, `5 is empty`. */
import type { NodeId, SelectorId, ThrottleId, ToggleId } from '../../../shared-model/ids.ts';
import { trainsIn } from '../../../shared-model/session/facts/standing.ts';
import { confirmed, expects, type Meaning, say } from './meaning.ts';
import { find } from './names.ts';
import { type Reading, withFound } from './read-line.ts';

function readSelector(reading: Reading, selector: SelectorId, rest: readonly string[]): Meaning {
  const observed = rest[0]?.toLowerCase() === 'is';
  const typed = rest.slice(observed ? 1 : 0).join(' ');
  const then = (position: ThrottleId | 'off'): Meaning =>
    observed
      ? say({ do: 'selector-stands-at', selector, position })
      : { kind: 'batch', items: [confirmed({ do: 'turn-selector', selector, position })] };
  if (typed.toLowerCase() === 'off' || typed === '0') return then('off');
  return withFound(find(reading.names.cabs, typed), 'a position', typed, then);
}

function readTurnout(turnout: NodeId, rest: readonly string[]): Meaning {
  const observed = rest[0]?.toLowerCase() === 'is';
  const typed = (rest[observed ? 1 : 0] ?? '').toLowerCase();
  const position =
    typed !== '' && 'normal'.startsWith(typed)
      ? 'normal'
      : typed !== '' && 'reverse'.startsWith(typed)
        ? 'reverse'
        : null;
  if (position === null) return expects('Expected normal or reverse.');
  return observed
    ? say({ do: 'turnout-stands-at', turnout, position })
    : { kind: 'batch', items: [confirmed({ do: 'throw-turnout', turnout, position })] };
}

function readToggle(toggle: ToggleId, rest: readonly string[]): Meaning {
  const observed = rest[0]?.toLowerCase() === 'is';
  const typed = (rest[observed ? 1 : 0] ?? '').toLowerCase();
  if (typed !== 'on' && typed !== 'off') return expects('Expected on or off.');
  const on = typed === 'on';
  return observed
    ? say({ do: 'toggle-stands-at', toggle, on })
    : { kind: 'batch', items: [confirmed({ do: 'set-toggle', toggle, on })] };
}

function readCab(cab: ThrottleId, rest: readonly string[]): Meaning {
  const words = rest.join(' ');
  if (words === '') return expects('Expected a person, nobody, zero, calls or stop.');
  switch (words.toLowerCase()) {
    case 'nobody':
    case 'free':
      return say({ do: 'assign-cab', cab, person: null });
    case 'zero':
      return say({ do: 'handle-at-zero', cab });
    case 'calls':
      return say({ do: 'call', cab });
    case 'stop':
      return say({ do: 'stop-called', cab });
    default:
      return say({ do: 'assign-cab', cab, person: words.slice(0, 60) });
  }
}

/** `5 is empty`, `5 is 12's`: a disputed block settled. */
function readBlock(reading: Reading, typed: string, rest: readonly string[]): Meaning | null {
  if (rest[0]?.toLowerCase() !== 'is') return null;
  const block = find(reading.names.blocks, typed);
  const what = rest.slice(1).join(' ').replace(/'?s$/, '');
  return withFound(block, 'a block', typed, (id) => {
    if (['empty', 'open', 'clear'].includes(what.toLowerCase()))
      return say({ do: 'settle', block: id, state: 'open' });
    const [only, ...others] = trainsIn(reading, id);
    if (what === 'occupied' && only !== undefined && others.length === 0)
      return say({ do: 'settle', block: id, state: 'occupied', train: only });
    return withFound(find(reading.names.trains, what), 'a train', what, (train) =>
      say({ do: 'settle', block: id, state: 'occupied', train }),
    );
  });
}

/** `7 is empty` where 7 is a train too: a line about the block, if that block is disputed; null when it is not. */
export function readBlockLine(reading: Reading, typed: string, rest: readonly string[]): Meaning | null {
  const block = find(reading.names.blocks, typed);
  if (block.kind !== 'one' || reading.state.blocks[block.id]?.state !== 'disputed') return null;
  return readBlock(reading, typed, rest);
}

/** Reads a line that begins with a thing; null when its first word is none. */
export function readThingLine(reading: Reading, first: string, rest: readonly string[]): Meaning | null {
  const { names } = reading;
  const whole = <Id extends string>(
    list: readonly { readonly id: Id; readonly words: readonly string[] }[],
  ): Id | undefined => list.find(({ words }) => words.includes(first.toLowerCase()))?.id;
  const selector = whole(
    names.selectors.map((named) => ({
      ...named,
      words: named.words.filter((word) => Number.isNaN(Number(word))),
    })),
  );
  if (selector !== undefined) return readSelector(reading, selector, rest);
  const turnout = whole(names.turnouts);
  if (turnout !== undefined) return readTurnout(turnout, rest);
  const toggle = whole(names.toggles);
  if (toggle !== undefined) return readToggle(toggle, rest);
  const cab = /^c/i.test(first) ? whole(names.cabs) : undefined;
  if (cab !== undefined) return readCab(cab, rest);
  return readBlock(reading, first, rest);
}
