/** Making up: who has which cab, which trains stand where, the knobs walked along as shown, phase checks that are due, start. */
import { CabRow } from './cab-row.tsx';
import { GuestTrain } from './guest-train.tsx';
import type { MakingUpProps } from './making-up-props.ts';
import { ReadyList } from './ready-list.tsx';
import { TrainRows } from './train-rows.tsx';
import './making-up.css';

export function MakingUp({ source, desk }: MakingUpProps) {
  return (
    <div className="desk-making">
      <section aria-label="Who runs">
        <h2>Who runs</h2>
        <ul>
          {source.railroad.document.throttles.map(({ id }, index) => (
            <CabRow key={id} source={source} desk={desk} cab={id} index={index} />
          ))}
        </ul>
      </section>
      <section aria-label="Trains">
        <h2>Which trains, and where</h2>
        <TrainRows source={source} desk={desk} />
        <GuestTrain source={source} desk={desk} />
      </section>
      <ReadyList source={source} desk={desk} />
    </div>
  );
}
