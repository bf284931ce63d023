/** A first railroad from the answers of the quick start: it audits without an error, and trains can be moved on it at once. */
import {
  blockId,
  placeId,
  selectorId,
  supplyId,
  type ThrottleId,
  throttleId,
  toggleId,
  trainId,
} from '../../ids.ts';
import { RAILROAD_FORMAT, type RailroadDocument } from '../document.ts';
import type { QuickAnswers } from './answers.ts';
import { type NumberedTrack, numbered, type Sketch, type SketchBlock } from './sketch.ts';
import { trackSketch } from './track.ts';

/** The scale that the sketch's lengths are drawn at. */
const DRAWN_RATIO = 48;
const TRAIN_MM = 1400;
/** From this gauge on direct current is at 16 V, below at 12 V: NEM 630; 32 mm is the gauge of 1:48. */
const LARGE_RATIO = 48;

/** What most packs of that kind give (common practice, no source); their owner reads the real figures off the plate. */
function powerOf({ system, scaleRatio }: QuickAnswers) {
  return system === 'three-rail-ac'
    ? { ratedVa: 180, maxVolts: 18, impedanceOhms: 0.25, breakerAmps: 10, throttleAmps: 8, trainAmps: 2.5 }
    : {
        ratedVa: 80,
        maxVolts: scaleRatio <= LARGE_RATIO ? 16 : 12,
        impedanceOhms: 0.25,
        breakerAmps: 5,
        throttleAmps: 2,
        trainAmps: 0.8,
      };
}

const upTo = (count: number): readonly number[] => Array.from({ length: count }, (_, index) => index);

/** Blocks with their sources, the selectors in rows of the wooden board as the loops lie, and the toggles below. */
function wiring(
  answers: QuickAnswers,
  sketch: Sketch,
  track: NumberedTrack,
  throttles: readonly ThrottleId[],
) {
  const blockOf = new Map(sketch.blocks.map(({ name }, index) => [name, blockId.parse(`B${index + 1}`)]));
  const loopThrottle = (loop: number): ThrottleId =>
    throttles[loop % throttles.length] ?? throttleId.parse('1');
  const hasSelector = ({ behind, early }: SketchBlock) =>
    behind === undefined && (answers.selectors === 'all' || (answers.selectors === 'some' && early));
  const dials = sketch.blocks.filter(hasSelector);
  const behind = sketch.blocks.filter((block) => block.behind !== undefined);
  const rowOf = (block: SketchBlock) => block.loop;
  const columnOf = (block: SketchBlock) =>
    dials.filter((dial) => rowOf(dial) === rowOf(block)).indexOf(block);
  const sourceOf = (block: SketchBlock): RailroadDocument['blocks'][number]['source'] => {
    const from = block.behind === undefined ? undefined : blockOf.get(block.behind);
    if (from !== undefined) return { toggle: toggleId.parse(`H${behind.indexOf(block) + 1}`), from };
    return hasSelector(block)
      ? { selector: selectorId.parse(`K${dials.indexOf(block) + 1}`) }
      : { throttle: loopThrottle(block.loop) };
  };
  return {
    selectors: dials.map((block, index) => ({
      id: selectorId.parse(`K${index + 1}`),
      name: block.name,
      positions: ['off' as const, ...throttles],
      stops: true,
      contactAmps: 8,
      at: [columnOf(block), rowOf(block)] as [number, number],
    })),
    toggles: behind.map((block, index) => ({
      id: toggleId.parse(`H${index + 1}`),
      name: block.name,
      at: [index, answers.loops] as [number, number],
    })),
    blocks: sketch.blocks.map((block, index) => ({
      id: blockId.parse(`B${index + 1}`),
      name: block.name,
      source: sourceOf(block),
      feeders: [{ edge: track.edge(...block.feeder) }],
    })),
  };
}

/**
 * Draws a first railroad.
 *
 * Wire is left out, since nobody can guess it: the audit judges it once it is entered. On two rails there is no common bus.
 *
 * @param answers of the quick start, parsed
 * @returns a whole document; its figures of power are what is usual, not what is on the owner's plates
 */
export function firstRailroad(answers: QuickAnswers): RailroadDocument {
  const sketch = trackSketch(answers);
  const track = numbered(sketch);
  const scaled = (mm: number) => Math.round((mm * DRAWN_RATIO) / answers.scaleRatio);
  const { throttleAmps, trainAmps, ...plate } = powerOf(answers);
  const throttles = upTo(answers.throttles).map((index) => throttleId.parse(`${index + 1}`));
  const supplyOf = (index: number) =>
    supplyId.parse(`S${1 + Math.floor((index * answers.supplies) / answers.throttles)}`);
  return {
    format: RAILROAD_FORMAT,
    name: answers.name,
    scaleRatio: answers.scaleRatio,
    system: answers.system,
    nodes: [...track.nodes],
    edges: track.edges.map((edge) => ({ ...edge, length: scaled(edge.length) })),
    supplies: upTo(answers.supplies).map((index) => ({
      id: supplyId.parse(`S${index + 1}`),
      name: `Supply ${index + 1}`,
      ...plate,
    })),
    throttles: throttles.map((id, index) => ({
      id,
      name: `Cab ${id}`,
      supply: supplyOf(index),
      maxAmps: throttleAmps,
    })),
    ...wiring(answers, sketch, track, throttles),
    trains: upTo(Math.max(2, answers.loops)).map((index) => ({
      id: trainId.parse(`t${index + 1}`),
      name: `No. ${index + 1}`,
      length: scaled(TRAIN_MM),
      amps: trainAmps,
    })),
    places: sketch.places.map(({ name, tracks }, index) => ({
      id: placeId.parse(`p${index + 1}`),
      name,
      order: index + 1,
      at: tracks.map(([from, to]) => ({ edge: track.edge(from, to), toward: track.node(to) })),
    })),
    settings: [],
  };
}
