/** Trains and places. */
import { PlaceRows } from './place-rows.tsx';
import { TrainRows } from './train-rows.tsx';
import './trains.css';

export function TrainsSheet() {
  return (
    <div className="trains-sheet">
      <TrainRows />
      <PlaceRows />
    </div>
  );
}
