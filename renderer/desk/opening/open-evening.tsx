/** Before an evening: the railroad in sight, alone or with a crew, and what else there is to do. */
import { useState } from 'react';
import type { RailroadCard } from '../../../shared-model/wire/contract.ts';
import { Board } from '../../board/board.tsx';
import { restingView } from '../../board/resting-view.ts';
import { useConsoleStore } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { Pick } from '../../parts/pick.tsx';
import { screenRest } from '../../shell/address.ts';
import { useHash } from '../../shell/use-hash.ts';
import { RailroadFacts } from './railroad-facts.tsx';
import { useRailroads, useWhole } from './use-railroads.ts';
import './opening.css';

/** Which railroad, and the two ways to open an evening on it. */
function Choice({
  cards,
  chosen,
  onChoose,
  onProblem,
}: {
  readonly cards: readonly RailroadCard[];
  readonly chosen: RailroadCard;
  readonly onChoose: (id: string) => void;
  readonly onProblem: (says: string) => void;
}) {
  const store = useConsoleStore();
  const open = async (alone: boolean) => {
    const answer = await store.openEvening(chosen.id, alone);
    if (!answer.ok) onProblem(answer.problem.says);
  };
  return (
    <div className="opening-choice">
      {cards.length === 1 ? (
        <strong>{chosen.name}</strong>
      ) : (
        <Pick
          label="Railroad"
          value={chosen.id}
          options={cards.map(({ id, name }) => ({ value: id, says: name }))}
          onChange={onChoose}
        />
      )}
      <Act onPress={() => void open(false)}>Open with a crew</Act>
      <Act onPress={() => void open(true)}>Open alone</Act>
    </div>
  );
}

/** @param props.brief below it the evening that ended last is still in sight: the choice alone */
export function OpenEvening({ brief = false }: { readonly brief?: boolean }) {
  const { cards, problem } = useRailroads();
  const [wanted, setWanted] = useState<string | null>(null);
  // Who comes from the drawing board has said which one in the address.
  const [asked] = screenRest(useHash());
  const [refused, setRefused] = useState<string | null>(null);
  const chosen = cards?.find(({ id }) => id === (wanted ?? asked)) ?? cards?.[0];
  const railroad = useWhole(brief ? undefined : chosen);
  const says = refused ?? problem;
  const choice =
    cards === null || chosen === undefined ? null : (
      <Choice cards={cards} chosen={chosen} onChoose={setWanted} onProblem={setRefused} />
    );
  const none = cards !== null && chosen === undefined;
  return (
    <section className={brief ? 'opening opening-brief' : 'opening'} aria-label="No evening is open">
      <div className="opening-words">
        <h2>No evening is open</h2>
        {brief ? null : (
          <p>
            Open one: then say who runs which cab and where the trains stand. Alone, grants acknowledge
            themselves and nothing is spoken.
          </p>
        )}
        {says === null ? null : <p role="alert">{says}</p>}
        {choice}
        {none ? (
          <p>
            No railroad is published yet: <a href="#/drawing-board">draw one on the Drawing board</a>.
          </p>
        ) : null}
      </div>
      {railroad === null || chosen === undefined ? null : (
        <>
          <RailroadFacts id={chosen.id} railroad={railroad} />
          <div className="opening-board">
            <Board railroad={railroad} view={restingView(railroad)} label={`The track of ${chosen.name}`} />
          </div>
        </>
      )}
    </section>
  );
}
