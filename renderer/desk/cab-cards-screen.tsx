/** A card for each cab, to print, for those who walk round with a throttle: who they are, what they run, what to say and when. */
import { blockMarks } from '../../shared-model/railroad/block-marks.ts';
import { sayStop, sayStopAll } from '../../shared-model/session/say.ts';
import { Act } from '../parts/act.tsx';
import { Badge } from '../parts/badge.tsx';
import { EmptyState } from '../parts/empty-state.tsx';
import type { DeskSource } from './desk-source.ts';
import { useLiveSource } from './live-source.ts';
import { trainsOfCab } from './strip-words.ts';
import './cab-cards.css';

interface CardProps {
  readonly source: DeskSource;
  readonly index: number;
}

function Card({ source, index }: CardProps) {
  const { railroad, state } = source;
  const throttle = railroad.document.throttles[index];
  if (throttle === undefined) return null;
  const marks = blockMarks(railroad.document);
  const trains = trainsOfCab(source, throttle.id);
  const first = trains[0]?.[1].name ?? 'No. 7';
  return (
    <article className="cab-card" aria-label={`Card of ${throttle.name}`}>
      <header>
        <Badge index={index} mark={throttle.id} size={64} />
        <div>
          <h2>{throttle.name}</h2>
          <p>{state.cabs[throttle.id]?.person ?? '____________________'}</p>
        </div>
        <p className="cab-card-railroad">{railroad.document.name}</p>
      </header>
      <p>
        Trains: {trains.length === 0 ? '____________________' : trains.map(([, { name }]) => name).join(', ')}
        . On the dials you are {throttle.id}.
      </p>
      <h3>Say</h3>
      <ul>
        <li>
          To ask: “{throttle.name}, {first}, to …”. Repeat what is granted, and run only after “right”.
        </li>
        <li>At every gap: “{first} in 4”. With the last car past it: “clear of 3”.</li>
        <li>“{first} stopped”, “stalled”, “off the rails”, as it happens.</li>
      </ul>
      <h3>Do</h3>
      <ul>
        <li>Stop with the front short of the gap that ends your authority.</li>
        <li>Handle to zero whenever a knob is turned under your train, and after every stop.</li>
        <li>
          “{sayStop(railroad, throttle.id)}”: handle to zero at once. “{sayStopAll(railroad)}”: the same for
          everybody.
        </li>
      </ul>
      <p className="cab-card-blocks">
        {railroad.document.blocks.map(({ id, name }) => `${marks.get(id) ?? id} ${name}`).join(' · ')}
      </p>
    </article>
  );
}

export function CabCardsScreen() {
  const source = useLiveSource();
  if (source === null)
    return (
      <EmptyState
        title="No evening is open"
        says="The cards show who has which cab: open an evening on the Desk first."
      />
    );
  return (
    <div className="cab-cards">
      <p className="cab-cards-act">
        <Act kind="calm" onPress={() => window.print()}>
          Print the cards
        </Act>
      </p>
      {source.railroad.document.throttles.map(({ id }, index) => (
        <Card key={id} source={source} index={index} />
      ))}
    </div>
  );
}
