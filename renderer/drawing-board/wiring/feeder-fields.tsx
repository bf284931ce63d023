/** One feeder of a block: the track it ends on, its wire, its terminal and the way it runs. */
import type { EdgeId } from '../../../shared-model/ids.ts';
import type { Block } from '../../../shared-model/railroad/document.ts';
import {
  wireOf,
  withFeederFields,
  withoutFeeder,
  withWire,
} from '../../../shared-model/railroad/editing/feeders.ts';
import { Act } from '../../parts/act.tsx';
import { PickBox } from '../../parts/field.tsx';
import { DraftNote } from '../draft-field.tsx';
import { useDraftRailroad, useDrawingStore } from '../use-drawing.tsx';
import { useChange } from './use-change.ts';
import { WirePieces } from './wire-pieces.tsx';

interface FeederFieldsProps {
  readonly block: Block;
  readonly index: number;
}

/** Every edge of the track, with the block that it is in now. */
function useEdgeOptions() {
  const railroad = useDraftRailroad();
  return railroad.document.edges.map(({ id, name, between }) => {
    const block = railroad.blockOfEdge.get(id);
    const inBlock = block === undefined ? 'dead' : (railroad.blocks.get(block)?.name ?? block);
    return { value: id, says: `${name ?? id}, ${between.join(' to ')} (${inBlock})` };
  });
}

export function FeederFields({ block, index }: FeederFieldsProps) {
  const store = useDrawingStore();
  const { change } = useChange();
  const options = useEdgeOptions();
  const railroad = useDraftRailroad();
  const feeder = block.feeders[index];
  if (feeder === undefined) return null;
  const where = `feeder ${index + 1} of ${block.name}`;
  const set = (fields: Parameters<typeof withFeederFields>[3], says: string, field?: string) =>
    change((draft) => withFeederFields(draft, block.id, index, fields), `${says} of ${where}`, field);
  const goTo = (edge: EdgeId) => set({ edge }, 'track');
  return (
    <fieldset className="wiring-group">
      <legend>Feeder {block.feeders.length > 1 ? index + 1 : ''}</legend>
      <div className="wiring-fields">
        <PickBox
          label="Ends on"
          value={feeder.edge}
          options={
            railroad.edges.has(feeder.edge)
              ? options
              : [...options, { value: feeder.edge, says: `${feeder.edge} (gone)` }]
          }
          onChange={goTo}
        />
        <Act
          kind="calm"
          onPress={() =>
            store.pick({
              says: `Point at the track that ${where} ends on`,
              take: (id) => {
                const edge = railroad.document.edges.find((each) => each.id === id)?.id;
                if (edge !== undefined) goTo(edge);
              },
            })
          }
        >
          Point at it
        </Act>
      </div>
      <WirePieces
        pieces={wireOf(feeder)}
        onChange={(pieces, what) =>
          change(
            (draft) => withWire(draft, block.id, index, pieces),
            `wire of ${where}`,
            `${block.id} ${index} ${what}`,
          )
        }
      />
      <div className="wiring-fields">
        <DraftNote
          label="Terminal"
          short
          most={40}
          value={feeder.terminal}
          onChange={(terminal) => set({ terminal }, 'terminal', `${block.id} ${index} terminal`)}
        />
        <DraftNote
          label="Runs by way of"
          hint="Feeders of one way share a cable route."
          most={80}
          value={feeder.route}
          onChange={(route) => set({ route }, 'way', `${block.id} ${index} route`)}
        />
        <Act
          kind="calm"
          label={`Take ${where} out`}
          onPress={() => change((draft) => withoutFeeder(draft, block.id, index), `no more ${where}`)}
        >
          Take it out
        </Act>
      </div>
    </fieldset>
  );
}
