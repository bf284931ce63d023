/** What is selected on the drawing, and everything that can be done with it; each with the key that does the same. */
import { type ReactNode, useDeferredValue } from 'react';
import { lengthText } from '../../../shared-model/length-text.ts';
import type { TrackEdge, TrackNode } from '../../../shared-model/railroad/document.ts';
import { cutEdge } from '../../../shared-model/railroad/editing/split-edge.ts';
import { setEdgeName, setLength, slipFormOf } from '../../../shared-model/railroad/editing/track-acts.ts';
import { useConsole } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { DraftNote } from '../draft-field.tsx';
import type { BoardActs } from '../drawing/board-acts.ts';
import { spotWords } from '../drawing/spot-words.ts';
import { useBoardActs } from '../drawing/use-board-acts.ts';
import { TypedLength } from '../typed-length.tsx';
import { useDraft, useDraftRailroad, useDrawing, useDrawingStore } from '../use-drawing.tsx';

function Do({
  onPress,
  keyName,
  children,
}: {
  readonly onPress: () => void;
  readonly keyName?: string;
  readonly children: ReactNode;
}) {
  return (
    <Act kind="calm" onPress={onPress} keyName={keyName}>
      {children}
    </Act>
  );
}

function CommonActs({ acts }: { readonly acts: BoardActs }) {
  return (
    <>
      <Do keyName="m" onPress={() => acts.carry('move')}>
        Carry
      </Do>
      <Do keyName="c" onPress={() => acts.carry('copy')}>
        Copy
      </Do>
      <Do keyName="x" onPress={acts.remove}>
        Remove
      </Do>
    </>
  );
}

function EdgeFields({ edge, acts }: { readonly edge: TrackEdge; readonly acts: BoardActs }) {
  const store = useDrawingStore();
  const draft = useDraft();
  return (
    <>
      <TypedLength
        label={`Length of ${edge.id}`}
        mm={edge.length}
        onChange={(mm) => acts.carryOut(setLength(draft, new Set([edge.id]), mm), `length of ${edge.id}`)}
      />
      <DraftNote
        label={`Name of ${edge.id}`}
        value={edge.name}
        onChange={(name) => {
          const outcome = setEdgeName(store.get().history.draft, edge.id, name ?? '');
          if (outcome.ok) store.change(outcome.draft, `name of ${edge.id}`, `name ${edge.id}`);
        }}
      />
      <p className="drawing-board-acts">
        <Do keyName="g" onPress={() => acts.carryOut(cutEdge(draft, edge.id, 0.5), `gap in ${edge.id}`)}>
          Gap in the middle
        </Do>
        <Do keyName="k" onPress={() => acts.type('id')}>
          Another id
        </Do>
        <CommonActs acts={acts} />
      </p>
    </>
  );
}

function NodeActs({ node, acts }: { readonly node: TrackNode; readonly acts: BoardActs }) {
  const draft = useDraft();
  switch (node.kind) {
    case 'end':
      return null;
    case 'gap':
    case 'joint':
      return (
        <>
          <Do keyName="g" onPress={() => acts.press({ is: 'node', node })}>
            {node.kind === 'gap' ? 'Make it a joint' : 'Cut a gap'}
          </Do>
          <Do keyName="e" onPress={acts.merge}>
            One edge
          </Do>
          <Do keyName="o" onPress={() => acts.carry('open')}>
            {node.alsoAt === undefined ? 'Draw it twice' : 'Draw it once'}
          </Do>
        </>
      );
    case 'turnout':
      return (
        <>
          {[node.trunk, node.normal, node.reverse].map((edge) => (
            <Act
              key={edge}
              kind="calm"
              pressed={edge === node.trunk}
              onPress={() => acts.trunkTo(node.id, edge)}
            >
              Trunk {edge}
            </Act>
          ))}
          <Do keyName="r" onPress={acts.swap}>
            Swap normal and reverse
          </Do>
          <Do keyName="f" onPress={acts.selfLining}>
            {node.selfLining === true ? 'Not self-lining' : 'Self-lining'}
          </Do>
        </>
      );
    case 'crossing':
      return (
        <>
          <Do keyName="w" onPress={acts.ways}>
            Other ways across
          </Do>
          <Do keyName="i" onPress={acts.insulated}>
            {node.insulated ? 'Not insulated' : 'Insulated'}
          </Do>
          <Do keyName="p" onPress={acts.slips}>
            Slips: {slipFormOf(draft, node) ?? 'others'}
          </Do>
        </>
      );
  }
}

function NodeFields({ node, acts }: { readonly node: TrackNode; readonly acts: BoardActs }) {
  return (
    <p className="drawing-board-acts">
      <NodeActs node={node} acts={acts} />
      <Do keyName="k" onPress={() => acts.type('id')}>
        Another id
      </Do>
      <CommonActs acts={acts} />
    </p>
  );
}

interface SeveralProps {
  readonly edges: readonly TrackEdge[];
  readonly nodes: readonly TrackNode[];
  readonly acts: BoardActs;
}

function Several({ edges, nodes, acts }: SeveralProps) {
  const lengths = useConsole((state) => state.settings.lengths);
  const all = edges.reduce((sum, { length }) => sum + length, 0);
  return (
    <>
      {edges.length === 0 ? null : (
        <p>
          {edges.length} edges, together {lengthText(all, lengths)}
        </p>
      )}
      <p className="drawing-board-acts">
        {edges.length === 0 ? null : (
          <Do keyName="l" onPress={() => acts.type('length')}>
            One length for each
          </Do>
        )}
        {nodes.filter(({ kind }) => kind === 'end').length === 2 ? (
          <Do keyName="y" onPress={acts.join}>
            Join the two ends
          </Do>
        ) : null}
        <CommonActs acts={acts} />
      </p>
    </>
  );
}

export function SelectedThings() {
  const railroad = useDraftRailroad();
  // The track of an edit is drawn before the fields of what it selected.
  const selection = useDeferredValue(useDrawing((state) => state.selection));
  const lengths = useConsole((state) => state.settings.lengths);
  const acts = useBoardActs();
  const edges = railroad.document.edges.filter(({ id }) => selection.has(id));
  const nodes = railroad.document.nodes.filter(({ id }) => selection.has(id));
  const [edge, node] = [edges[0], nodes[0]];
  if (selection.size > 1)
    return (
      <section aria-label="Selected">
        <h3>{selection.size} things are selected</h3>
        <Several edges={edges} nodes={nodes} acts={acts} />
      </section>
    );
  if (edge !== undefined)
    return (
      <section aria-label="Selected" key={edge.id}>
        <h3>{spotWords(railroad, { is: 'edge', edge: edge.id, share: 0.5 }, lengths)}</h3>
        <EdgeFields edge={edge} acts={acts} />
      </section>
    );
  if (node === undefined) return null;
  return (
    <section aria-label="Selected" key={node.id}>
      <h3>{spotWords(railroad, { is: 'node', node }, lengths)}</h3>
      <NodeFields node={node} acts={acts} />
    </section>
  );
}
