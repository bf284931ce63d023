/** The track: for now how much of it there is. */
import { useDraft } from '../use-drawing.tsx';

export function TrackSheet() {
  const { nodes, edges } = useDraft();
  return (
    <p>
      {edges.length} edges between {nodes.length} nodes
    </p>
  );
}
