/** Labels to cut out: one for each end of every feeder, one for every knob, supply and turnout. */
import type { RailroadDocument } from '../document.ts';
import { wiringSchedule } from './wiring-schedule.ts';

export interface Label {
  /** Unique in the list. */
  readonly key: string;
  /** What is read from afar. */
  readonly head: string;
  readonly says: string;
}

/** All labels of a document: feeders at the terminal and at the track, then knobs, supplies, turnouts. */
export function labelsOf(document: RailroadDocument): readonly Label[] {
  const feeders = wiringSchedule(document).feeders.flatMap((feeder, index): readonly Label[] => {
    const { mark, blockName, edge, terminal, source } = feeder;
    return [
      {
        key: `feeder ${index} terminal`,
        head: terminal ?? mark,
        says: `block ${mark} ${blockName}, to the track at ${edge}`,
      },
      { key: `feeder ${index} track`, head: mark, says: `${blockName}, ${edge}, from ${source}` },
    ];
  });
  const fed = (knob: string) =>
    document.blocks
      .filter(({ source }) => Object.values(source).some((id) => id === knob))
      .map(({ name }) => name)
      .join(', ');
  return [
    ...feeders,
    ...document.selectors.map(({ id, name }) => ({
      key: id,
      head: name,
      says: `selector ${id}, ${fed(id)}`,
    })),
    ...document.toggles.map(({ id, name }) => ({ key: id, head: name, says: `toggle ${id}, ${fed(id)}` })),
    ...document.supplies.map(({ id, name, maxVolts, breakerAmps }) => ({
      key: id,
      head: name,
      says: `${maxVolts} V, breaker ${breakerAmps} A`,
    })),
    ...document.nodes
      .filter(({ kind }) => kind === 'turnout')
      .map(({ id }) => ({ key: id, head: id, says: 'turnout' })),
  ];
}
