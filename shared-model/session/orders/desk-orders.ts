/** Orders about the session itself: open, start, stop, resume, end, tags, seen alarms, the clock. */
import { DISPATCHER } from '../dispatcher.ts';
import type { InputOf } from '../input.ts';
import { phaseAfter } from '../machines.ts';
import { done, type Ruling } from '../ruling.ts';
import type { SessionState } from '../state.ts';
import { type World, withState } from '../world.ts';
import { notNow } from './train-orders.ts';

type Staging = 'open-session' | 'start' | 'resume' | 'stop-all' | 'end-session';

/** Railroad time runs only while the session does: it is read off at each change. */
function clockAt(state: SessionState, at: number, runs: boolean): SessionState['clock'] {
  const { clock } = state;
  if (clock === null) return null;
  return { ...clock, minutes: railroadMinutes(clock, at), at, runs };
}

/** Minutes of railroad time since its midnight at a moment of the session. */
export function railroadMinutes(clock: NonNullable<SessionState['clock']>, at: number): number {
  const passed = clock.runs ? ((at - clock.at) / 60) * clock.ratio : 0;
  return (clock.minutes + passed) % 1440;
}

export function stageOrder(world: World, input: InputOf<Staging>, at: number): Ruling {
  const { state } = world;
  const phase = phaseAfter(state.phase, input.do);
  const clock = clockAt(state, at, phase === 'running');
  const alone = input.do === 'open-session' ? (input.alone ?? false) : state.alone;
  const stop =
    input.do === 'stop-all'
      ? { kind: input.kind, why: input.why }
      : input.do === 'resume'
        ? null
        : state.stop;
  return done(withState(world, { phase, clock, alone, stop }));
}

export function setClock(world: World, { ratio, minutes }: InputOf<'set-clock'>, at: number): Ruling {
  const clock =
    ratio === 0 ? null : { ratio, minutes: minutes % 1440, at, runs: world.state.phase === 'running' };
  return done(withState(world, { clock }));
}

export function tag(world: World, { thing, why, by }: InputOf<'tag'>, at: number): Ruling {
  const others = world.state.tags.filter((other) => other.thing !== thing);
  return done(withState(world, { tags: [...others, { thing, why, by, at }] }));
}

/** Only who placed a tag, or the dispatcher saying so, removes it. */
export function untag(world: World, { thing, by }: InputOf<'untag'>): Ruling {
  const placed = world.state.tags.find((other) => other.thing === thing);
  if (placed === undefined || (placed.by !== by && by !== DISPATCHER)) return notNow(world, thing);
  return done(withState(world, { tags: world.state.tags.filter((other) => other !== placed) }));
}

export function alarmSeen(world: World, { alarm }: InputOf<'alarm-seen'>): Ruling {
  if (!world.state.alarms.some((other) => other.entry === alarm)) return notNow(world, String(alarm));
  const alarms = world.state.alarms.map((other) =>
    other.entry === alarm ? { ...other, seen: true } : other,
  );
  return done(withState(world, { alarms }));
}
