/** One block: its name, what feeds it, its feeders, and the track that the gaps really leave it. */
import type { Block } from '../../../shared-model/railroad/document.ts';
import { withFeeder } from '../../../shared-model/railroad/editing/feeders.ts';
import { withoutBlock } from '../../../shared-model/railroad/editing/sources.ts';
import { withThing } from '../../../shared-model/railroad/editing/things.ts';
import { blockExtents } from '../../../shared-model/railroad/extents.ts';
import { useConsole } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { RUN_UNITS, runText } from '../../power-room/run-unit.ts';
import { DraftText } from '../draft-field.tsx';
import { ThingId } from '../thing-id.tsx';
import { useDraftRailroad } from '../use-drawing.tsx';
import { FeederFields } from './feeder-fields.tsx';
import { FindingsAbout } from './findings-about.tsx';
import { SourceFields } from './source-fields.tsx';
import { useChange } from './use-change.ts';

/** The track that a block really has, in words. */
function useReach(block: Block): string {
  const railroad = useDraftRailroad();
  const unit = RUN_UNITS[useConsole((state) => state.settings.lengths)];
  const extent = blockExtents(railroad).find(({ id }) => id === block.id);
  if (extent === undefined || extent.edges.length === 0) return 'No track is in it.';
  const gaps = extent.gaps.length === 0 ? 'no gap' : extent.gaps.join(', ');
  return `${extent.edges.join(', ')}: ${runText(extent.length, unit)} of track, cut out by ${gaps}.`;
}

interface BlockFieldsProps {
  readonly block: Block;
  readonly onRenamed: (id: string) => void;
}

export function BlockFields({ block, onRenamed }: BlockFieldsProps) {
  const railroad = useDraftRailroad();
  const { change, attempt } = useChange();
  const reach = useReach(block);
  const spot = (railroad.edgesOfBlock.get(block.id)?.[0] ?? railroad.document.edges[0]?.id) || null;
  return (
    <>
      <DraftText
        label="Name"
        value={block.name}
        onChange={(name) =>
          change(
            (draft) => withThing(draft, 'blocks', block.id, { name }),
            `name of ${block.id}`,
            `${block.id} name`,
          )
        }
      />
      <ThingId id={block.id} onRenamed={onRenamed} />
      <p className="fine">{reach}</p>
      <FindingsAbout
        concerns={({ about, code }) =>
          about[0] === block.id || (code === 'two-sources' && about[1] === block.id)
        }
      />
      <SourceFields block={block} />
      {block.feeders.map((_, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a feeder has no other name than its place
        <FeederFields key={index} block={block} index={index} />
      ))}
      <p className="drawing-board-acts">
        {spot === null ? null : (
          <Act
            kind="calm"
            onPress={() =>
              change((draft) => withFeeder(draft, block.id, spot), `another feeder of ${block.name}`)
            }
          >
            Another feeder
          </Act>
        )}
        <Act
          kind="calm"
          onPress={() => attempt((draft) => withoutBlock(draft, block.id), `no more block ${block.id}`)}
        >
          Take the block out
        </Act>
      </p>
    </>
  );
}
