/**
 * The plan that is carried out in the evening that goes on: one for each console, told by every report. It is kept by the host with its
 * evening, so that a page that begins anew goes on with it.
 */
import { isCarriedOut } from '../../shared-model/planning/carry-out/covered.ts';
import {
  atTheBeginning,
  goneOn,
  type HowFar,
  howFarAfter,
} from '../../shared-model/planning/carry-out/how-far.ts';
import type { ConsoleStore } from '../console/console-store.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { throughEntries } from '../logbook/through-entries.ts';
import type { KeptRehearsal } from '../rehearsal/kept-rehearsal.ts';
import {
  CARRIED,
  type CarriedOrders,
  type CarriedPlan,
  carriedPlan,
  ordersCarried,
  type PlanNow,
  planAt,
} from './carried-plan.ts';

interface Carried {
  readonly plan: CarriedPlan;
  readonly orders: CarriedOrders;
  readonly far: HowFar;
}

export interface CarryingState {
  /** Null where none is carried out: none was made real, it was put aside, or it is at its end. */
  readonly now: PlanNow | null;
  /** One that was put aside, and can be taken up again. */
  readonly aside: string | null;
  /** Its end, or why it cannot be gone on with, in words; until it is read. */
  readonly says: string | null;
}

export interface Carrying {
  readonly get: () => CarryingState;
  readonly subscribe: (listener: () => void) => () => void;
  /** A plan of which an order was made real: it is carried out from now on. */
  readonly begin: (rehearsal: KeptRehearsal) => void;
  readonly putAside: (aside: boolean) => void;
  /** What it says was read. */
  readonly seen: () => void;
  /** The plan with its rehearsal, to be planned again. */
  readonly plan: () => CarriedPlan | null;
}

const NOTHING: CarryingState = { now: null, aside: null, says: null };

const isLive = (evening: FollowedEvening | null): evening is FollowedEvening =>
  evening !== null && evening.state.phase !== 'ended';

function makeCarrying(store: ConsoleStore): Carrying {
  let carried: Carried | null = null;
  let state = NOTHING;
  let says: string | null = null;
  /** The evening that was looked at for a plan. */
  let lookedAt: string | null = null;
  const listeners = new Set<() => void>();
  const { connection } = store;

  const write = (plan: CarriedPlan) => {
    const { madeReal } = plan.rehearsal;
    if (madeReal === null) return;
    const id = `${madeReal.evening} ${madeReal.entry}`;
    void connection.call('keep.write', { kind: CARRIED, id, value: plan });
  };
  const told = () => {
    const { evening } = store.get();
    const on =
      carried !== null && isLive(evening) && carried.orders.made.evening === evening.id ? carried : null;
    const isOn = on !== null && !on.plan.aside && !on.plan.ended;
    state = {
      now: isOn && isLive(evening) ? planAt(on.orders, on.far, evening.state) : null,
      aside: on?.plan.aside === true && !on.plan.ended ? on.orders.name : null,
      says,
    };
    for (const listener of listeners) listener();
  };
  const come = (far: HowFar) => {
    if (carried === null) return;
    carried = { ...carried, far };
    if (!carried.plan.ended && isCarriedOut(carried.orders.kept, far)) {
      const { name, kept } = carried.orders;
      says = `${name} is carried out: every train has run its ${kept.orders.length} orders.`;
      carried = { ...carried, plan: { ...carried.plan, ended: true } };
      write(carried.plan);
    }
  };
  /** How far the trains are by the log, since the plan was made real; what is said meanwhile counts too. */
  const catchUp = async (mine: CarriedOrders) => {
    let far = atTheBeginning(mine.kept);
    const { evening, entry } = mine.made;
    const answer = await throughEntries(connection, evening, Math.max(1, entry), (before, events) => {
      far = howFarAfter(mine.kept, far, before, events, entry);
      return carried?.orders === mine;
    });
    const live = store.get().evening;
    if (answer?.ok !== true || carried?.orders !== mine || live?.id !== evening) return;
    come(goneOn(mine.kept, far, live.state));
    told();
  };
  const take = (plan: CarriedPlan): boolean => {
    const orders = ordersCarried(plan);
    if (orders === null) return false;
    carried = { plan, orders, far: atTheBeginning(orders.kept) };
    void catchUp(orders);
    return true;
  };
  const recall = async (id: string) => {
    const rows = await connection.call('keep.list', { kind: CARRIED });
    if (store.get().evening?.id !== id) return;
    if (!rows.ok) {
      // Looked for again as soon as anything is heard of the evening.
      if (carried === null) lookedAt = null;
      return;
    }
    const ofThis = (row: (typeof rows.value)[number]): boolean => row.id.startsWith(`${id} `);
    // Of an evening that is over nothing is carried out; the rehearsal itself stays where it was kept.
    for (const row of rows.value.filter((one) => !ofThis(one)))
      void connection.call('keep.remove', { kind: CARRIED, id: row.id });
    const entryOf = (row: (typeof rows.value)[number]): number => Number(row.id.slice(id.length + 1));
    const [newest] = rows.value.filter(ofThis).toSorted((one, other) => entryOf(other) - entryOf(one));
    if (newest !== undefined && carried === null) {
      const read = carriedPlan.safeParse(newest.value);
      if (!read.success || !take(read.data))
        says = 'The plan that was being carried out cannot be read: its orders are not offered any more.';
    }
    told();
  };

  let before = store.get().evening?.state;
  const follow = () => {
    const { evening } = store.get();
    if (evening !== null && evening.id !== lookedAt) {
      lookedAt = evening.id;
      carried = null;
      says = null;
      if (isLive(evening)) void recall(evening.id);
    }
    if (evening?.state === before) return;
    before = evening?.state;
    if (carried !== null && evening?.id === carried.orders.made.evening)
      come(goneOn(carried.orders.kept, carried.far, evening.state));
    told();
  };
  store.subscribe(follow);
  follow();

  const change = (part: Partial<CarriedPlan>) => {
    if (carried === null) return;
    carried = { ...carried, plan: { ...carried.plan, ...part } };
    write(carried.plan);
    told();
  };
  return {
    get: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    begin(rehearsal) {
      const made = rehearsal.madeReal;
      const isSame =
        carried?.orders.made.evening === made?.evening &&
        carried?.orders.made.entry === made?.entry &&
        carried?.orders.made.plan === made?.plan;
      const plan: CarriedPlan = { format: 'cabward-carried-plan/1', rehearsal, aside: false, ended: false };
      says = null;
      if (isSame && carried !== null) carried = { ...carried, plan };
      else if (!take(plan)) return;
      write(plan);
      told();
    },
    putAside: (aside) => change({ aside }),
    seen() {
      if (says === null) return;
      says = null;
      told();
    },
    plan: () => carried?.plan ?? null,
  };
}

const known = new WeakMap<ConsoleStore, Carrying>();

/** The plan that this console carries out. */
export function carryingOf(store: ConsoleStore): Carrying {
  const found = known.get(store) ?? makeCarrying(store);
  known.set(store, found);
  return found;
}
