/** Lines that begin with a word: right, stop, trip, tag, phase, new, note and the like. */
import type { TrainId } from '../../../shared-model/ids.ts';
import { authoritiesInForce, authorityOf } from '../../../shared-model/session/facts/authorities.ts';
import { expects, type Meaning, say } from './meaning.ts';
import { find } from './names.ts';
import { type Reading, withFound } from './read-line.ts';

/** The oldest authority (or lengthening) that waits for its read-back. */
export function waitingReadBack({ state }: Pick<Reading, 'state'>) {
  return authoritiesInForce(state).find(
    ({ authority }) => authority.state === 'granted' || authority.legs.some((leg) => !leg.readBack),
  );
}

function readRight(reading: Reading): Meaning {
  const waiting = waitingReadBack(reading);
  return waiting === undefined
    ? expects('Nothing waits to be read back.')
    : say({ do: 'acknowledge', authority: waiting.id });
}

function readAnnul(reading: Reading, rest: readonly string[]): Meaning {
  const [typed = '', ...why] = rest;
  return withFound(find(reading.names.trains, typed), 'a train', typed, (train) => {
    const held = authorityOf(reading.state, train);
    if (held === null) return expects('That train has no authority.');
    return say({ do: 'annul', authority: held.id, why: why.join(' ') || 'no reason given' });
  });
}

/** Anything that can be tagged, by the first words of the line. */
function readTag(reading: Reading, rest: readonly string[], on: boolean): Meaning {
  const [typed = '', ...why] = rest;
  const { names } = reading;
  const things = [
    ...names.selectors,
    ...names.turnouts,
    ...names.toggles,
    ...names.cabs,
    ...names.supplies,
    ...names.blocks,
    ...names.trains,
  ];
  return withFound(find<string>(things, typed), 'a thing', typed, (thing) =>
    on
      ? say({ do: 'tag', thing, why: why.join(' ') || 'no reason given', by: 'dispatcher' })
      : say({ do: 'untag', thing, by: why.join(' ') || 'dispatcher' }),
  );
}

function readPhase(reading: Reading, rest: readonly string[]): Meaning {
  const [one = '', other = '', ...readings] = rest;
  const [voltsA, voltsB, voltsAcross] = readings.map(Number);
  if (![voltsA, voltsB, voltsAcross].every((volts) => volts !== undefined && volts >= 0))
    return expects('Expected: phase north south 18 18 0.4 (volts of each, and across).');
  return withFound(find(reading.names.supplies, one), 'a supply', one, (a) =>
    withFound(find(reading.names.supplies, other), 'a supply', other, (b) =>
      say({
        do: 'phase-measured',
        a,
        b,
        voltsA: voltsA ?? 0,
        voltsB: voltsB ?? 0,
        voltsAcross: voltsAcross ?? 0,
      }),
    ),
  );
}

/** `new 88 guest 900 2.5`: number, name, millimetres, amperes. */
function readNew(rest: readonly string[]): Meaning {
  const [number, ...more] = rest;
  const amps = Number(more.at(-1));
  const length = Number(more.at(-2));
  const name = more.slice(0, -2).join(' ');
  if (number === undefined || name === '' || !(length > 0) || !(amps >= 0))
    return expects('Expected: new 88 guest 900 2.5 (number, name, millimetres, amperes).');
  return say({
    do: 'add-train',
    train: `t${number}` as TrainId,
    name: `No. ${number} ${name}`,
    length,
    amps,
  });
}

function readSupply(
  reading: Reading,
  rest: readonly string[],
  verb: 'breaker-tripped' | 'breaker-reset' | 'supply-replugged',
): Meaning {
  const typed = rest.join(' ');
  return withFound(find(reading.names.supplies, typed), 'a supply', typed, (supply) =>
    say({ do: verb, supply }),
  );
}

function readWhy(reading: Reading, rest: readonly string[]): Meaning {
  const typed = rest.join(' ');
  if (typed === '') return { kind: 'why', about: null };
  return withFound(
    find<string>([...reading.names.trains, ...reading.names.blocks], typed),
    'a train or a block',
    typed,
    (about) => ({ kind: 'why', about }),
  );
}

function readClock(rest: readonly string[]): Meaning {
  const [ratio, time = '0:00'] = rest;
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  const speed = Number(ratio?.replace(/:1$/, ''));
  if (!(speed >= 0) || Number.isNaN(hours + minutes))
    return expects('Expected: clock 4 6:30 (how many times as fast, and the railroad time now).');
  return say({ do: 'set-clock', ratio: speed, minutes: hours * 60 + minutes });
}

function readRetract({ state }: Reading, rest: readonly string[]): Meaning {
  const entry = rest[0] === undefined ? state.entries : Number(rest[0]);
  return Number.isInteger(entry) && entry > 0
    ? say({ do: 'retract', entry, why: rest.slice(1).join(' ') || 'typed by mistake' })
    : expects('Expected the number of the entry.');
}

/** `setting two loops`: a saved setting, applied as orders. */
function readSetting(reading: Reading, rest: readonly string[]): Meaning {
  const typed = rest.join(' ');
  return withFound(find(reading.names.settings, typed), 'a setting', typed, (setting) =>
    say({ do: 'apply-setting', setting: setting as never }),
  );
}

/** Reads a line that begins with a known word; null when it does not. */
export function readWordLine(reading: Reading, first: string, rest: readonly string[]): Meaning | null {
  switch (first) {
    case 'right':
      return readRight(reading);
    case 'stop':
      return say({ do: 'stop-all', why: rest.join(' ') || 'called', kind: 'emergency' });
    case 'break':
      return say({ do: 'stop-all', why: rest.join(' ') || 'a break', kind: 'break' });
    case 'resume':
      return say({ do: 'resume' });
    case 'start':
      return say({ do: 'start' });
    case 'end':
      return say({ do: 'end-session' });
    case 'annul':
      return readAnnul(reading, rest);
    case 'tag':
      return readTag(reading, rest, true);
    case 'untag':
      return readTag(reading, rest, false);
    case 'trip':
      return readSupply(reading, rest, 'breaker-tripped');
    case 'reset':
      return readSupply(reading, rest, 'breaker-reset');
    case 'replug':
      return readSupply(reading, rest, 'supply-replugged');
    case 'phase':
      return readPhase(reading, rest);
    case 'new':
      return readNew(rest);
    case 'why':
      return readWhy(reading, rest);
    case 'clock':
      return readClock(rest);
    case 'setting':
      return readSetting(reading, rest);
    case 'retract':
      return readRetract(reading, rest);
    case 'seen': {
      const entry = Number(rest[0] ?? reading.state.alarms[0]?.entry);
      return entry > 0 ? say({ do: 'alarm-seen', alarm: entry }) : expects('No alarm stands.');
    }
    case 'note':
      return rest.length === 0 ? expects('Expected the note.') : say({ do: 'note', text: rest.join(' ') });
    default:
      return null;
  }
}
