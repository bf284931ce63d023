/** Track that grows at random: a line or a loop to begin with, then spurs, sidings, crossovers, crossings and gaps cut into it. */
import type { EdgeId, NodeId } from '../../shared-model/ids.ts';
import type { TrackEdge, TrackNode } from '../../shared-model/railroad/document.ts';
import type { Chance } from './chance.ts';

export interface Track {
  readonly nodes: TrackNode[];
  readonly edges: TrackEdge[];
}

/** Exchanges one edge for another wherever a node names it. */
function renamed(node: TrackNode, old: EdgeId, now: EdgeId): TrackNode {
  const of = (edge: EdgeId): EdgeId => (edge === old ? now : edge);
  if (node.kind === 'turnout')
    return { ...node, trunk: of(node.trunk), normal: of(node.normal), reverse: of(node.reverse) };
  if (node.kind === 'crossing') {
    const [[a, b], [c, d]] = node.ways;
    return {
      ...node,
      ways: [
        [of(a), of(b)],
        [of(c), of(d)],
      ],
      ...(node.slips === undefined
        ? {}
        : { slips: node.slips.map(([e, f]): [EdgeId, EdgeId] => [of(e), of(f)]) }),
    };
  }
  return node;
}

class Growth {
  readonly track: Track = { nodes: [], edges: [] };
  private made = 0;
  private readonly chance: Chance;

  constructor(chance: Chance) {
    this.chance = chance;
  }

  private length(): number {
    return this.chance.inHundred(10) ? this.chance.between(2, 30) * 76.2 : this.chance.between(4, 60) * 50;
  }

  private point(): [number, number] {
    return [this.chance.between(0, 60), this.chance.between(0, 20)];
  }

  nodeId(letter: string): NodeId {
    this.made += 1;
    return `${letter}${this.made}` as NodeId;
  }

  node(kind: 'end' | 'joint' | 'gap'): NodeId {
    const id = this.nodeId(kind === 'end' ? 'n' : kind === 'gap' ? 'g' : 'j');
    this.track.nodes.push({ id, kind, at: this.point() });
    return id;
  }

  edge(a: NodeId, b: NodeId): EdgeId {
    const id = `e${this.track.edges.length + 1}` as EdgeId;
    this.track.edges.push({ id, between: [a, b], length: this.length() });
    return id;
  }

  anyEdge(): EdgeId {
    return this.chance.pick(this.track.edges).id;
  }

  /** Splits an edge at a node that is still to come: the edge keeps its first half, a new edge is the second. */
  split(edge: EdgeId, at: NodeId): [EdgeId, EdgeId] {
    const index = this.track.edges.findIndex((one) => one.id === edge);
    const whole = this.track.edges[index];
    if (whole === undefined) throw new Error(`no edge ${edge}`);
    const [a, b] = whole.between;
    this.track.edges[index] = { ...whole, between: [a, at], length: this.length() };
    const rest = this.edge(at, b);
    this.track.nodes.forEach((node, n) => {
      if (node.id === b) this.track.nodes[n] = renamed(node, edge, rest);
    });
    return [edge, rest];
  }

  cut(edge: EdgeId, kind: 'joint' | 'gap'): void {
    this.split(edge, this.node(kind));
  }

  /** A turnout in an edge, with a branch to a node; the trunk on either side. */
  branch(edge: EdgeId, to: (turnout: NodeId) => EdgeId): void {
    const id = this.nodeId('T');
    const halves = this.split(edge, id);
    const [trunk, through] = this.chance.inHundred(50) ? halves : [halves[1], halves[0]];
    const leg = to(id);
    if (this.chance.inHundred(45)) this.cut(leg, 'gap');
    const [normal, reverse] = this.chance.inHundred(80) ? [through, leg] : [leg, through];
    const selfLining = this.chance.inHundred(15) ? { selfLining: true } : {};
    this.track.nodes.push({ id, kind: 'turnout', at: this.point(), trunk, normal, reverse, ...selfLining });
  }

  spur(): void {
    this.branch(this.anyEdge(), (turnout) => this.edge(turnout, this.node('end')));
  }

  /** Tracks side by side, each a turnout farther on. */
  yard(): void {
    let lead = this.anyEdge();
    for (let track = this.chance.between(2, 3); track > 0; track -= 1)
      this.branch(lead, (turnout) => {
        lead = this.edge(turnout, this.node('end'));
        return lead;
      });
  }

  /** Joins two spots of the track: a siding, a crossover or a reverse connection, as it comes. */
  connection(): void {
    const middle = this.node(this.chance.inHundred(50) ? 'gap' : 'joint');
    for (let end = 0; end < 2; end += 1) {
      const free = this.track.edges.filter((edge) => !edge.between.includes(middle));
      this.branch(this.chance.pick(free).id, (turnout) => this.edge(turnout, middle));
    }
  }

  crossing(): void {
    if (this.track.edges.length < 2) return;
    const first = this.anyEdge();
    const second = this.chance.pick(this.track.edges.filter((edge) => edge.id !== first)).id;
    const id = this.nodeId('X');
    const [a, b] = this.split(first, id);
    const [c, d] = this.split(second, id);
    const ways: [[EdgeId, EdgeId], [EdgeId, EdgeId]] = [
      [a, b],
      [c, d],
    ];
    const slips: [EdgeId, EdgeId][] = this.chance.inHundred(50)
      ? [[a, d]]
      : [
          [a, d],
          [b, c],
        ];
    this.track.nodes.push({
      id,
      kind: 'crossing',
      at: this.point(),
      ways,
      insulated: this.chance.inHundred(50),
      ...(this.chance.inHundred(40) ? { slips } : {}),
    });
  }

  loop(): void {
    const nodes = Array.from({ length: this.chance.between(2, 4) }, () =>
      this.node(this.chance.inHundred(60) ? 'gap' : 'joint'),
    );
    nodes.forEach((node, index) => {
      const next = nodes[(index + 1) % nodes.length];
      if (next !== undefined) this.edge(node, next);
    });
  }

  line(): void {
    this.edge(this.node('end'), this.node('end'));
  }

  /** Gaps in some of the edges that have none yet, or a railroad that is joined in many ways would be a single block. */
  cutApart(): void {
    const whole = this.track.edges.filter(
      ({ between }) => !this.track.nodes.some((node) => node.kind === 'gap' && between.includes(node.id)),
    );
    for (const edge of whole) if (this.chance.inHundred(25)) this.cut(edge.id, 'gap');
  }

  grow(): void {
    const kind = this.chance.between(1, 100);
    if (kind <= 25) this.connection();
    else if (kind <= 45) this.spur();
    else if (kind <= 55) this.yard();
    else if (kind <= 67) this.crossing();
    else this.cut(this.anyEdge(), kind <= 92 ? 'gap' : 'joint');
  }
}

/**
 * Random track whose nodes all have the right number of edges.
 *
 * @param size how many times it grows
 */
export function randomTrack(chance: Chance, size: number): Track {
  const growth = new Growth(chance);
  if (chance.inHundred(50)) growth.loop();
  else growth.line();
  for (let step = 0; step < size; step += 1) growth.grow();
  growth.cutApart();
  return growth.track;
}
