/** References of a railroad document that lead nowhere. They are looked for in the parsed document, before anything is indexed. */
import type { Finding } from '../refusal.ts';
import { brokenTrack } from './broken-track.ts';
import type { RailroadDocument } from './document.ts';
import { finding } from './findings.ts';

const broken = finding('broken-reference', 'error');

type Kind = 'node' | 'edge' | 'supply' | 'throttle' | 'selector' | 'toggle' | 'block';

const idsOf = (list: readonly { readonly id: string }[]): ReadonlySet<string> =>
  new Set(list.map((thing) => thing.id));

/** A lookup that answers with a finding when there is no such thing. */
function lookup(document: RailroadDocument) {
  const known: Readonly<Record<Kind, ReadonlySet<string>>> = {
    node: idsOf(document.nodes),
    edge: idsOf(document.edges),
    supply: idsOf(document.supplies),
    throttle: idsOf(document.throttles),
    selector: idsOf(document.selectors),
    toggle: idsOf(document.toggles),
    block: idsOf(document.blocks),
  };
  return (holder: string, words: string, kind: Kind, id: string): readonly Finding[] =>
    known[kind].has(id)
      ? []
      : [
          broken(
            [holder, id],
            `${words} names the ${kind} "${id}", which does not exist.`,
            `Add the ${kind} "${id}", or name one that exists.`,
          ),
        ];
}

type Lookup = ReturnType<typeof lookup>;

function brokenWiring(document: RailroadDocument, look: Lookup): readonly Finding[] {
  const throttles = document.throttles.flatMap((throttle) =>
    look(throttle.id, `Throttle ${throttle.id}`, 'supply', throttle.supply),
  );
  const selectors = document.selectors.flatMap((selector) =>
    selector.positions.flatMap((position) =>
      position === null || position === 'off'
        ? []
        : look(selector.id, `The dial of selector ${selector.id}`, 'throttle', position),
    ),
  );
  const blocks = document.blocks.flatMap(({ id, source, feeders }) => {
    const words = `The source of block ${id}`;
    const sources =
      'selector' in source
        ? look(id, words, 'selector', source.selector)
        : 'throttle' in source
          ? look(id, words, 'throttle', source.throttle)
          : [...look(id, words, 'toggle', source.toggle), ...look(id, words, 'block', source.from)];
    return [...sources, ...feeders.flatMap(({ edge }) => look(id, `A feeder of block ${id}`, 'edge', edge))];
  });
  return [...throttles, ...selectors, ...blocks];
}

function brokenPlaces(document: RailroadDocument, look: Lookup): readonly Finding[] {
  const edges = new Map(document.edges.map((edge) => [edge.id, edge]));
  return document.places.flatMap((place) =>
    place.at.flatMap(({ edge, toward }) => {
      const words = `A track of place ${place.id}`;
      const missing = [...look(place.id, words, 'edge', edge), ...look(place.id, words, 'node', toward)];
      if (missing.length > 0 || edges.get(edge)?.between.includes(toward) === true) return missing;
      return [
        broken(
          [place.id, edge, toward],
          `${words} is edge ${edge} toward ${toward}, which is not one of its ends.`,
          `Name one of the two ends of ${edge}: ${edges.get(edge)?.between.join(' or ')}.`,
        ),
      ];
    }),
  );
}

function brokenSettings(document: RailroadDocument, look: Lookup): readonly Finding[] {
  const nodes = new Map<string, RailroadDocument['nodes'][number]>(
    document.nodes.map((node) => [node.id, node]),
  );
  return document.settings.flatMap((setting) => {
    const words = `Setting ${setting.id}`;
    const selectors = Object.entries(setting.selectors).flatMap(([selector, position]) => [
      ...look(setting.id, words, 'selector', selector),
      ...(position === 'off' ? [] : look(setting.id, words, 'throttle', position)),
    ]);
    const turnouts = Object.keys(setting.turnouts).flatMap((id) => {
      const node = nodes.get(id);
      if (node === undefined) return look(setting.id, words, 'node', id);
      if (node.kind === 'turnout' || (node.kind === 'crossing' && node.slips !== undefined)) return [];
      return [
        broken(
          [setting.id, id],
          `${words} sets node ${id} like a turnout, but nothing is thrown there.`,
          `Take ${id} out of the setting, or name a turnout.`,
        ),
      ];
    });
    const toggles = Object.keys(setting.toggles).flatMap((id) => look(setting.id, words, 'toggle', id));
    return [...selectors, ...turnouts, ...toggles];
  });
}

/**
 * Every reference of a document that is broken: ids that do not exist, nodes with the wrong number of edges, turnout legs and crossing
 * ways that are not edges there. A document without any may be indexed.
 *
 * @param document a parsed railroad document
 * @returns `broken-reference` findings, those of the track first
 */
export function brokenReferences(document: RailroadDocument): readonly Finding[] {
  const look = lookup(document);
  const ends = document.edges.flatMap((edge) =>
    edge.between.flatMap((node) => look(edge.id, `Edge ${edge.id}`, 'node', node)),
  );
  return [
    ...ends,
    ...brokenTrack(document),
    ...brokenWiring(document, look),
    ...brokenPlaces(document, look),
    ...brokenSettings(document, look),
  ];
}
