/** Before an evening: choose the railroad, alone or with others, and open it. */
import { useEffect, useState } from 'react';
import type { RailroadCard } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { EmptyState } from '../parts/empty-state.tsx';

export function OpenEvening() {
  const store = useConsoleStore();
  const [cards, setCards] = useState<readonly RailroadCard[] | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    const read = async () => {
      const answer = await store.connection.call('railroads.list', {});
      if (answer.ok) setCards(answer.value);
      else setProblem(answer.problem.says);
    };
    void read();
    return store.connection.on('railroads.changed', () => void read());
  }, [store]);
  const open = async (id: string, alone: boolean) => {
    const answer = await store.openEvening(id, alone);
    if (!answer.ok) setProblem(answer.problem.says);
  };
  const ready = (cards ?? []).filter(({ version }) => version > 0);
  return (
    <EmptyState
      title="No evening is open"
      says="Open one on a railroad: then say who runs which cab and where the trains stand. Alone, grants acknowledge themselves and nothing is spoken."
    >
      {problem === null ? null : <p role="alert">{problem}</p>}
      {ready.map(({ id, name }) => (
        <div key={id} className="desk-acts">
          <strong>{name}</strong>
          <Act onPress={() => void open(id, false)}>Open with a crew</Act>
          <Act onPress={() => void open(id, true)}>Open alone</Act>
        </div>
      ))}
      {cards !== null && ready.length === 0 ? (
        <p>No railroad is published yet: draw one on the Drawing board.</p>
      ) : null}
    </EmptyState>
  );
}
