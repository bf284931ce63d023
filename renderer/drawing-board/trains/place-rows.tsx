/** Named places: their order along the railroad, and the tracks where a train stops for them. */
import type { EdgeId, NodeId, PlaceId } from '../../../shared-model/ids.ts';
import type { Place } from '../../../shared-model/railroad/document.ts';
import { freshId } from '../../../shared-model/railroad/editing/draft.ts';
import { type Fields, withNew, without, withThing } from '../../../shared-model/railroad/editing/things.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { isStop } from '../../../shared-model/railroad/travel.ts';
import { Act } from '../../parts/act.tsx';
import { PickBox } from '../../parts/field.tsx';
import { DraftFigure, DraftText } from '../draft-field.tsx';
import { ThingId } from '../thing-id.tsx';
import { useDraft, useDraftRailroad, useDrawingStore } from '../use-drawing.tsx';

type Spot = Place['at'][number];

/** Which way a train stands on an edge that was pointed at: toward a gap or end, where it can stop. */
function spotOn(railroad: Railroad, id: string): Spot | null {
  const edge = railroad.edges.get(id as EdgeId);
  if (edge === undefined) return null;
  const toward = edge.between.find((node) => isStop(railroad, node)) ?? edge.between[0];
  return { edge: edge.id, toward };
}

interface SpotFieldsProps {
  readonly place: Place;
  readonly spot: Spot;
  readonly onChange: (spot: Spot | null) => void;
}

function SpotFields({ place, spot, onChange }: SpotFieldsProps) {
  const railroad = useDraftRailroad();
  const ends = railroad.edges.get(spot.edge)?.between ?? [spot.toward];
  const block = railroad.blockOfEdge.get(spot.edge);
  return (
    <div className="trains-spot">
      <PickBox
        label={`${spot.edge}${block === undefined ? '' : ` in ${block}`}, head toward`}
        value={spot.toward as string}
        options={ends.map((node) => ({
          value: node as string,
          says: `${railroad.nodes.get(node)?.kind ?? 'node'} ${node}`,
        }))}
        onChange={(toward) => onChange({ ...spot, toward: toward as NodeId })}
      />
      <Act kind="calm" label={`Take ${spot.edge} off ${place.name}`} onPress={() => onChange(null)}>
        Take off
      </Act>
    </div>
  );
}

function PlaceFields({ place }: { readonly place: Place }) {
  const store = useDrawingStore();
  const railroad = useDraftRailroad();
  const set = (fields: Fields<Place>, what: string) =>
    store.change(
      withThing(store.get().history.draft, 'places', place.id, fields),
      `${what} of ${place.name}`,
      `${place.id} ${what}`,
    );
  const point = () =>
    store.pick({
      says: `Point at a track of ${place.name}.`,
      take(id) {
        const spot = spotOn(railroad, id);
        if (spot === null) store.say('Not done: an edge is wanted, not a node.');
        else set({ at: [...place.at, spot] }, `track ${id}`);
      },
    });
  return (
    <fieldset className="trains-thing">
      <legend>{place.name}</legend>
      <DraftText label="Name of the place" value={place.name} onChange={(name) => set({ name }, 'name')} />
      <ThingId id={place.id} label={`Id of ${place.name}`} />
      <DraftFigure
        label="Order along the railroad"
        hint="It gives the train sheet its direction."
        value={place.order}
        range={{ least: -1000, most: 1000, unit: 'its place in the order' }}
        onChange={(order) => (order === undefined ? undefined : set({ order }, 'order'))}
      />
      {place.at.map((spot, index) => (
        <SpotFields
          // biome-ignore lint/suspicious/noArrayIndexKey: a track may stand in a place twice, toward either end
          key={`${spot.edge} ${index}`}
          place={place}
          spot={spot}
          onChange={(next) =>
            set(
              { at: place.at.flatMap((one, at) => (at !== index ? [one] : next === null ? [] : [next])) },
              `track ${spot.edge}`,
            )
          }
        />
      ))}
      <p className="drawing-board-acts">
        <Act kind="calm" label={`Point at a track of ${place.name}`} onPress={point}>
          Point at a track
        </Act>
        <Act
          kind="calm"
          label={`Remove ${place.name}`}
          onPress={() =>
            store.change(without(store.get().history.draft, 'places', place.id), `removed ${place.name}`)
          }
        >
          Remove
        </Act>
      </p>
    </fieldset>
  );
}

export function PlaceRows() {
  const store = useDrawingStore();
  const draft = useDraft();
  const add = () => {
    const id = freshId(draft, 'p') as PlaceId;
    const order = Math.max(0, ...draft.places.map((place) => place.order)) + 1;
    store.change(
      withNew(draft, 'places', { id, name: `Place ${id.slice(1)}`, order, at: [] }),
      `place ${id}`,
    );
  };
  return (
    <section aria-label="Places">
      <h3>Places</h3>
      {draft.places.length === 0 ? (
        <p className="quiet">None yet. Trains are sent to places and reported there by name.</p>
      ) : null}
      {draft.places.map((place) => (
        <PlaceFields key={place.id} place={place} />
      ))}
      <Act kind="calm" onPress={add}>
        Add a place
      </Act>
    </section>
  );
}
