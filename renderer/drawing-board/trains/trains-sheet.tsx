/** Trains and places: for now their names. */
import { useDraft } from '../use-drawing.tsx';

export function TrainsSheet() {
  const { trains, places } = useDraft();
  return (
    <ul>
      {[...trains, ...places].map(({ id, name }) => (
        <li key={id}>{name}</li>
      ))}
    </ul>
  );
}
