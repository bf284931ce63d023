/** What is at a spot of the sheet, in words. */
import { type LengthSystem, lengthText } from '../../../shared-model/length-text.ts';
import type { AtSpot } from '../../../shared-model/railroad/editing/draw-edge.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';

/** "edge e3 Passing main, 2400 mm, block B2"; the empty word where there is nothing. */
export function spotWords(railroad: Railroad, there: AtSpot, system: LengthSystem): string {
  const blockWords = (edge: string | undefined): string => {
    const section = railroad.sections.find(({ edges }) => edges.some((one) => one === edge));
    const names =
      section?.blocks.map((id) => `block ${id} ${railroad.blocks.get(id)?.name ?? ''}`.trim()) ?? [];
    return names.length === 0 ? 'nothing feeds this' : names.join(' and ');
  };
  if (there === null) return '';
  if (there.is === 'edge') {
    const edge = railroad.edges.get(there.edge);
    if (edge === undefined) return '';
    const name = edge.name === undefined ? '' : ` ${edge.name}`;
    return `edge ${edge.id}${name}, ${lengthText(edge.length, system)}, ${blockWords(edge.id)}`;
  }
  const { node } = there;
  const [one, other] = railroad.edgesAt.get(node.id) ?? [];
  switch (node.kind) {
    case 'gap':
      return `gap ${node.id}, ${blockWords(one)} | ${blockWords(other)}`;
    case 'turnout':
      return `turnout ${node.id}, trunk ${node.trunk}, normal ${node.normal}, reverse ${node.reverse}`;
    case 'crossing':
      return `crossing ${node.id}, ${node.ways.map((way) => way.join(' to ')).join(', and ')}${node.insulated ? ', insulated' : ''}`;
    default:
      return `${node.kind === 'end' ? 'end of track' : 'joint'} ${node.id}, ${blockWords(one)}`;
  }
}
