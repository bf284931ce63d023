/** For the notebook: track plan, wiring schedule, dials, labels, with the cautions. What is seen here is what is printed. */
import { labelsOf } from '../../../shared-model/railroad/notebook/labels.ts';
import { Act } from '../../parts/act.tsx';
import { CautionList } from '../../power-room/caution-list.tsx';
import { useChecks, useDraft, useDraftRailroad, useDrawing } from '../use-drawing.tsx';
import { DialFigure } from '../wiring/dial-figure.tsx';
import { FeederTables } from './feeder-tables.tsx';
import { PowerTables } from './power-tables.tsx';
import { TrackPlan } from './track-plan.tsx';
import './print.css';

function Dials() {
  const { selectors, blocks } = useDraft();
  if (selectors.length === 0) return <p>No selector is installed yet.</p>;
  return (
    <ul className="notebook-dials">
      {selectors.map((selector) => (
        <li key={selector.id}>
          <h4>
            {selector.name} ({selector.id})
          </h4>
          <DialFigure selector={selector} />
          <p>
            {blocks
              .filter(({ source }) => 'selector' in source && source.selector === selector.id)
              .map(({ name }) => name)
              .join(', ') || 'feeds nothing'}
            ; {selector.contacts ?? 'contacts not known'}, {selector.contactAmps} A
          </p>
        </li>
      ))}
    </ul>
  );
}

export function PrintSheet() {
  const draft = useDraft();
  const railroad = useDraftRailroad();
  const version = useDrawing((state) => state.version);
  const isDraft = useDrawing((state) => state.isDraft);
  const checks = useChecks();
  const which = isDraft ? `draft after version ${version}` : `version ${version}`;
  return (
    <div className="notebook">
      <p className="notebook-act">
        <Act kind="calm" onPress={() => window.print()}>
          Print it
        </Act>
        <span className="quiet">Letter or A4, upright; the track plan takes a page of its own.</span>
      </p>
      <section className="notebook-page" aria-label="Track plan">
        <h3>
          {draft.name}: track plan <span>{which}</span>
        </h3>
        <TrackPlan railroad={railroad} />
        <p>
          A number in a frame is a block, a stroke across the track a gap, a wedge a feeder. Where the line
          changes, the block does.
        </p>
      </section>
      <section className="notebook-page" aria-label="Wiring schedule">
        <h3>
          {draft.name}: wiring schedule <span>{which}</span>
        </h3>
        <CautionList step="print" masterSwitch={draft.masterSwitch} />
        <FeederTables document={draft} />
        <PowerTables railroad={railroad} checks={checks} />
      </section>
      <section className="notebook-page" aria-label="Dials">
        <h3>
          {draft.name}: dials <span>{which}</span>
        </h3>
        <Dials />
      </section>
      <section className="notebook-page" aria-label="Labels">
        <h3>{draft.name}: labels to cut out</h3>
        <ul className="notebook-labels">
          {labelsOf(draft).map(({ key, head, says }) => (
            <li key={key}>
              <strong>{head}</strong>
              <span>{says}</span>
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
}
