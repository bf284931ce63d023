/** Feeders that run the same way, given a common cable route in one act. */
import { useState } from 'react';
import { withFeederFields } from '../../../shared-model/railroad/editing/feeders.ts';
import { Act } from '../../parts/act.tsx';
import { TextBox } from '../../parts/field.tsx';
import { useDraft } from '../use-drawing.tsx';
import { useChange } from './use-change.ts';

export function CableRoutes() {
  const { blocks } = useDraft();
  const { change } = useChange();
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  const [route, setRoute] = useState('');
  const feeders = blocks.flatMap((block) =>
    block.feeders.map((feeder, index) => ({ block, feeder, index, key: `${block.id} ${index}` })),
  );
  if (feeders.length === 0) return null;
  const chosen = feeders.filter(({ key }) => ticked.has(key));
  const tick = (key: string) => {
    const next = new Set(ticked);
    if (!next.delete(key)) next.add(key);
    setTicked(next);
  };
  const give = () => {
    const way = route.trim();
    change(
      (draft) =>
        chosen.reduce(
          (so, { block, index }) =>
            withFeederFields(so, block.id, index, { route: way === '' ? undefined : way }),
          draft,
        ),
      way === '' ? `no way for ${chosen.length} feeders` : `${chosen.length} feeders by way of ${way}`,
    );
    setTicked(new Set());
  };
  return (
    <fieldset className="wiring-group">
      <legend>Cable routes</legend>
      <p className="fine quiet">Tick the feeders that run the same way, and name it.</p>
      <ul className="wiring-ticks">
        {feeders.map(({ key, block, feeder }) => (
          <li key={key}>
            <label>
              <input type="checkbox" checked={ticked.has(key)} onChange={() => tick(key)} />
              <span>
                {block.name} at {feeder.edge}
                <span className="quiet"> {feeder.route ?? 'no way yet'}</span>
              </span>
            </label>
          </li>
        ))}
      </ul>
      <div className="wiring-fields">
        <TextBox
          label="Way"
          value={route}
          onChange={setRoute}
          problem={route.length > 80 ? 'Expected at most 80 characters.' : undefined}
        />
        <Act
          kind="calm"
          notNow={
            chosen.length === 0 ? 'tick some first' : route.length > 80 ? 'the way is too long' : undefined
          }
          onPress={give}
        >
          {chosen.length === 1 ? 'Give it to 1 feeder' : `Give it to ${chosen.length} feeders`}
        </Act>
      </div>
    </fieldset>
  );
}
