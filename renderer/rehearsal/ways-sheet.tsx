/** "Which way?": the ways of one train to a block, the shortest first, some blocks asked for and some kept out of. */
import { useEffect, useMemo, useState } from 'react';
import type { BlockId, TrainId } from '../../shared-model/ids.ts';
import { useConsole } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { Pick } from '../parts/pick.tsx';
import { Table } from '../parts/table.tsx';
import type { Rehearsal } from './use-rehearsal.ts';
import { type Way, waysOf } from './ways.ts';
import { blockName, lengthWords, throwWords, trainWords } from './words.ts';

const NONE = '';

interface WaysSheetProps {
  readonly rehearsal: Rehearsal;
  /** The way that is looked at, to be shown on the board; null for none. */
  readonly onLook: (way: Way | null) => void;
}

export function WaysSheet({ rehearsal, onLook }: WaysSheetProps) {
  const { origin, parsed, fork, json } = rehearsal;
  const { railroad } = origin;
  const lengths = useConsole((state) => state.settings.lengths);
  const first = json.trains[0];
  const [train, setTrain] = useState<string>(first?.train ?? NONE);
  const now = json.trains.find((one) => one.train === train) ?? first;
  const [to, setTo] = useState<string>(NONE);
  const [via, setVia] = useState<readonly BlockId[]>([]);
  const [avoid, setAvoid] = useState<readonly BlockId[]>([]);
  const goal = (to === NONE ? now?.to : (to as BlockId)) ?? railroad.document.blocks[0]?.id;
  const ways = useMemo(() => {
    if (!parsed.ok || fork === null || now === undefined || goal === undefined) return [];
    return waysOf(railroad, parsed.value, fork.evening, {
      train: now.train as TrainId,
      to: goal as BlockId,
      via,
      avoid,
    });
  }, [railroad, parsed, fork, now, goal, via, avoid]);
  const [looked, setLooked] = useState(0);
  const shown = Math.min(looked, Math.max(0, ways.length - 1));
  useEffect(() => {
    onLook(ways[shown] ?? null);
    return () => onLook(null);
  }, [ways, shown, onLook]);
  if (now === undefined || goal === undefined)
    return <p>No train stands anywhere yet: put one on the track first.</p>;
  const blocks = railroad.document.blocks.map(({ id }) => ({
    value: id as string,
    says: blockName(railroad, id),
  }));
  const more = (list: readonly BlockId[], set: (list: readonly BlockId[]) => void) => (id: string) => {
    if (id !== NONE && !list.includes(id as BlockId)) set([...list, id as BlockId]);
  };
  return (
    <section className="rehearsal-ways" aria-label="Ways">
      <div className="rehearsal-acts">
        <Pick
          label="Train"
          value={now.train}
          options={json.trains.map((one) => ({ value: one.train, says: trainWords(railroad, one.train) }))}
          onChange={setTrain}
        />
        <Pick label="to" value={goal} options={blocks} onChange={setTo} />
        <Pick
          label="by way of"
          value={NONE}
          options={[{ value: NONE, says: 'any' }, ...blocks]}
          onChange={more(via, setVia)}
        />
        <Pick
          label="but not through"
          value={NONE}
          options={[{ value: NONE, says: 'nothing kept out' }, ...blocks]}
          onChange={more(avoid, setAvoid)}
        />
        {via.map((id) => (
          <Act key={`via ${id}`} kind="calm" onPress={() => setVia(via.filter((other) => other !== id))}>
            not by {blockName(railroad, id)}
          </Act>
        ))}
        {avoid.map((id) => (
          <Act
            key={`avoid ${id}`}
            kind="calm"
            onPress={() => setAvoid(avoid.filter((other) => other !== id))}
          >
            let in {blockName(railroad, id)}
          </Act>
        ))}
      </div>
      {parsed.ok ? null : <p role="alert">Mend what is wrong with the trains first.</p>}
      {parsed.ok && ways.length === 0 ? (
        <p role="status">
          No track leads {trainWords(railroad, now.train)} to {blockName(railroad, goal)} in its facing
          {via.length + avoid.length > 0 ? ', by what was asked' : ''}.
        </p>
      ) : null}
      {ways.length === 0 ? null : (
        <Table
          caption="Ways side by side, the shortest first"
          columns={[
            { name: 'on the board' },
            { name: 'way' },
            { name: 'length', figures: true },
            { name: 'running', figures: true },
            { name: 'turnouts at reverse' },
            { name: 'throws' },
            { name: 'against it now' },
          ]}
          rows={ways.map(({ route, seconds, throws, refusals }, index) => ({
            key: String(index),
            cells: [
              <Act
                key="look"
                kind="calm"
                pressed={index === shown}
                label={`Show way ${index + 1} on the board`}
                onPress={() => setLooked(index)}
              >
                {index + 1}
              </Act>,
              route.blocks.map((id) => blockName(railroad, id)).join(' · '),
              lengthWords(route.lengthMm, lengths),
              `${Math.round(seconds)} s`,
              route.turnouts
                .filter(({ position }) => position === 'reverse')
                .map(({ id }) => id)
                .join(', '),
              refusals.length > 0
                ? ''
                : throws.length === 0
                  ? 'none'
                  : throws.map((thrown) => throwWords(thrown)).join(', '),
              refusals.length === 0 ? 'nothing' : refusals.join(' '),
            ],
          }))}
        />
      )}
    </section>
  );
}
