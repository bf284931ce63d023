/**
 * The figures of an evening worked out again from the rows of the log alone: SQL, JSON and sums, nothing of the program.
 * What is counted follows the design (3-session.md, issue 5); how it is counted shares no line with shared-model.
 */
import Sqlite from 'better-sqlite3';

type Json = Record<string, unknown>;
type Records = Record<string, Json>;
interface Spot {
  readonly edge: string;
  readonly toward: string;
}
interface Ask {
  readonly train: string;
  readonly since: number;
  readonly calledAt: number | null;
  readonly reasons: readonly { readonly about: readonly string[] }[];
}
interface Row {
  readonly entry: number;
  readonly at: number;
  readonly outcome: string;
  readonly authority?: string;
  readonly input: Json;
  readonly reasons: readonly { readonly code: string; readonly about: readonly string[] }[];
  readonly changes: Json;
}

const add = (sums: Record<string, number>, key: string | null | undefined, amount: number) => {
  if (key !== null && key !== undefined && amount !== 0) sums[key] = (sums[key] ?? 0) + amount;
};

export function figuresFromRows(file: string, session: number) {
  const log = new Sqlite(file, { readonly: true });
  const rows = log
    .prepare('SELECT json FROM events WHERE session = ? ORDER BY entry')
    .pluck()
    .all(session)
    .map((text) => JSON.parse(String(text)) as Row);
  const header = log.prepare('SELECT initial, railroad_hash FROM sessions WHERE id = ?').get(session) as {
    initial: string;
    railroad_hash: string;
  };
  const document = JSON.parse(
    String(log.prepare('SELECT json FROM documents WHERE hash = ?').pluck().get(header.railroad_hash)),
  ) as { edges: { id: string; length: number }[] };
  log.close();

  const length = Object.fromEntries(document.edges.map((edge) => [edge.id, edge.length]));
  const state = JSON.parse(header.initial) as Json;
  const takenBack = new Set(
    rows.flatMap(({ input, outcome }) =>
      input.do === 'retract' && outcome !== 'refused' ? [input.entry] : [],
    ),
  );
  const figures = {
    seconds: 0,
    onTrack: {} as Record<string, number>,
    withCab: {} as Record<string, number>,
    occupied: {} as Record<string, number>,
    held: {} as Record<string, number>,
    waited: {} as Record<string, number>,
    /** By the first thing of the ask's first reason; "" where nothing was in the way but the dispatcher. */
    waitedFor: {} as Record<string, number>,
    byPerson: { waited: {}, distance: {}, moves: {} } as Record<
      'waited' | 'distance' | 'moves',
      Record<string, number>
    >,
    distance: {} as Record<string, number>,
    moves: {} as Record<string, number>,
    handOffs: {} as Record<string, number>,
    refusals: {} as Record<string, number>,
    alarms: {} as Record<string, number>,
    throwsPerMinute: {} as Record<string, number>,
    overrides: [] as unknown[],
  };
  const records = (key: string) => (state[key] ?? {}) as Records;
  const personOf = (train: string) =>
    records('cabs')[String(records('trains')[train]?.cab)]?.person as string | null | undefined;
  const wait = ({ train, reasons }: Ask, seconds: number) => {
    add(figures.waited, train, seconds);
    add(figures.waitedFor, reasons[0]?.about[0] ?? '', seconds);
    add(figures.byPerson.waited, personOf(train), seconds);
  };

  for (const row of rows) {
    const lasted = row.at - figures.seconds;
    for (const [id, train] of Object.entries(records('trains')))
      if (train.placed) add(figures.onTrack, id, lasted);
    for (const { person } of Object.values(records('cabs')))
      add(figures.withCab, person as string | null, lasted);
    for (const [id, block] of Object.entries(records('blocks'))) {
      if (block.state !== 'open') add(figures.held, id, lasted);
      if (block.state === 'occupied') add(figures.occupied, id, lasted);
    }
    const asking = state.asks as readonly Ask[];
    for (const ask of asking) wait(ask, lasted);
    figures.seconds = row.at;

    const trailsBefore = Object.fromEntries(
      Object.entries(records('trains')).map(([id, { trail }]) => [id, trail as Spot[]]),
    );
    const known = records('authorities');
    const askedBefore = asking.map(({ train }) => train);
    for (const [key, change] of Object.entries(row.changes)) {
      if (['cabs', 'blocks', 'trains', 'authorities'].includes(key)) {
        const next = { ...records(key), ...(change as Records) };
        for (const [id, value] of Object.entries(change as Json)) if (value === null) delete next[id];
        state[key] = next;
      } else state[key] = change;
    }
    if (takenBack.has(row.entry)) continue;

    for (const ask of state.asks as readonly Ask[])
      if (!askedBefore.includes(ask.train) && ask.calledAt !== null) wait(ask, ask.since - ask.calledAt);
    if (row.outcome === 'refused') {
      for (const { code } of row.reasons) add(figures.refusals, code, 1);
      continue;
    }
    for (const { code } of row.outcome === 'alarm' ? row.reasons : []) add(figures.alarms, code, 1);
    const order = row.input.do === 'override' ? (row.input.order as Json) : row.input;
    if (row.input.do === 'override') figures.overrides.push([row.entry, row.input.why]);
    if (row.authority !== undefined && !(row.authority in known)) {
      const train = String(records('authorities')[row.authority]?.train);
      add(figures.moves, train, 1);
      add(figures.byPerson.moves, personOf(train), 1);
    }
    if (order.do === 'hand-off') add(figures.handOffs, String(order.train), 1);
    if (['turn-selector', 'throw-turnout', 'set-toggle'].includes(String(order.do)))
      add(figures.throwsPerMinute, String(Math.floor(row.at / 60)), 1);
    if (row.input.do !== 'train-entered' && row.input.do !== 'advance') continue;
    for (const [id, { trail }] of Object.entries(records('trains'))) {
      const was = trailsBefore[id]?.[0];
      const now = trail as Spot[];
      const back = now.findIndex(({ edge, toward }) => edge === was?.edge && toward === was.toward);
      for (const { edge } of now.slice(0, Math.max(0, back))) {
        add(figures.distance, id, length[edge] ?? 0);
        add(figures.byPerson.distance, personOf(id), length[edge] ?? 0);
      }
    }
  }
  return figures;
}
