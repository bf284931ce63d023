/** The wiring schedule: what goes into the notebook about every feeder, with totals of wire by gauge and by cable route. */
import type { BlockId, EdgeId } from '../../ids.ts';
import type { Millimetres } from '../../units.ts';
import { blockMarks } from '../block-marks.ts';
import type { Block, RailroadDocument } from '../document.ts';

type WirePiece = NonNullable<RailroadDocument['commonBus']>;

export interface FeederRow {
  readonly block: BlockId;
  readonly mark: string;
  readonly blockName: string;
  /** What feeds the block, in words. */
  readonly source: string;
  readonly edge: EdgeId;
  /** None: its wire is not given. */
  readonly pieces: readonly WirePiece[];
  readonly terminal: string | null;
  readonly route: string | null;
}

/** Wire of one gauge: its runs, one way, added up. */
export interface GaugeTotal {
  readonly awg: number;
  readonly run: Millimetres;
  readonly pieces: number;
}

/** Feeders that run the same way; those without a route are together under null. */
export interface CableRoute {
  readonly route: string | null;
  readonly feeders: number;
  readonly totals: readonly GaugeTotal[];
}

export interface WiringSchedule {
  readonly feeders: readonly FeederRow[];
  readonly routes: readonly CableRoute[];
  /** Of all feeders and the common bus, lightest gauge last. */
  readonly totals: readonly GaugeTotal[];
  /** Feeders whose wire is not given, which the totals leave out. */
  readonly notGiven: number;
}

function sourceWords(document: RailroadDocument, { source }: Block): string {
  const name = (list: 'selectors' | 'throttles' | 'toggles' | 'blocks', id: string) => {
    const thing = document[list].find((each) => each.id === id);
    return thing === undefined || thing.name === id ? id : `${id} (${thing.name})`;
  };
  if ('selector' in source) return `selector ${name('selectors', source.selector)}`;
  if ('throttle' in source) return `straight from throttle ${name('throttles', source.throttle)}`;
  return `toggle ${name('toggles', source.toggle)} behind block ${name('blocks', source.from)}`;
}

/** The pieces added up by gauge, heaviest first. */
function totalsOf(pieces: readonly WirePiece[]): readonly GaugeTotal[] {
  const gauges = [...new Set(pieces.map(({ awg }) => awg))].sort((one, other) => one - other);
  return gauges.map((awg) => {
    const such = pieces.filter((piece) => piece.awg === awg);
    return { awg, run: such.reduce((sum, { run }) => sum + run, 0), pieces: such.length };
  });
}

/** The schedule of a document, which may be broken otherwise; feeders in the order of the blocks, routes by name, those without one last. */
export function wiringSchedule(document: RailroadDocument): WiringSchedule {
  const marks = blockMarks(document);
  const feeders = document.blocks.flatMap((block) =>
    block.feeders.map(
      ({ edge, wire, terminal, route }): FeederRow => ({
        block: block.id,
        mark: marks.get(block.id) ?? block.id,
        blockName: block.name,
        source: sourceWords(document, block),
        edge,
        pieces: wire === undefined ? [] : 'awg' in wire ? [wire] : wire,
        terminal: terminal ?? null,
        route: route ?? null,
      }),
    ),
  );
  const named = [...new Set(feeders.flatMap(({ route }) => (route === null ? [] : [route])))].sort();
  const routes = [...named, null].flatMap((route): readonly CableRoute[] => {
    const along = feeders.filter((feeder) => feeder.route === route);
    return along.length === 0
      ? []
      : [{ route, feeders: along.length, totals: totalsOf(along.flatMap(({ pieces }) => pieces)) }];
  });
  const bus = document.commonBus === undefined ? [] : [document.commonBus];
  return {
    feeders,
    routes,
    totals: totalsOf([...feeders.flatMap(({ pieces }) => pieces), ...bus]),
    notGiven: feeders.filter(({ pieces }) => pieces.length === 0).length,
  };
}
