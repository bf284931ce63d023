/** The Desk's own state: the line, the last refusal and its ways out, throws put off, what is said; and what each act does. */
import { useCallback, useMemo, useRef, useState } from 'react';
import type { TrainId } from '../../shared-model/ids.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { authoritiesInForce } from '../../shared-model/session/facts/authorities.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { sayAgain, sayEntry } from '../../shared-model/session/say.ts';
import type { ActName } from '../keys/acts.ts';
import { actAnswer } from './act-items.ts';
import { clockTime, type DeskSource } from './desk-source.ts';
import { confirmed, type Meaning } from './entry-line/meaning.ts';
import { readLine } from './entry-line/read-line.ts';
import { nextAct, pendingThrows } from './next-act.ts';
import { type WayOut, waysOut } from './ways-out.ts';

/** The newest words that were to be spoken. */
function lastSpoken({ railroad, state, recent, openedAt }: DeskSource): string | null {
  for (const event of [...recent].reverse()) {
    const words = sayEntry({ railroad, state }, event, clockTime(openedAt, event.at));
    if (words !== null) return words;
  }
  return null;
}

export function useDesk(source: DeskSource) {
  const [line, setLine] = useState('');
  const [refused, setRefused] = useState<SessionEvent | null>(null);
  const [chosen, setChosen] = useState(0);
  const [problem, setProblem] = useState<string | null>(null);
  const [later, setLater] = useState<readonly string[]>([]);
  const [said, setSaid] = useState<string | null>(null);
  const [follow, setFollow] = useState<TrainId | null>(null);
  const [stopOffered, setStopOffered] = useState(false);
  const busy = useRef(false);

  const { railroad, state, recent } = source;
  const pending = useMemo(
    () => pendingThrows({ railroad, state, recent }, later),
    [railroad, state, recent, later],
  );
  const next = useMemo(() => nextAct({ state }, pending), [state, pending]);
  const meaning: Meaning = useMemo(() => readLine(railroad, state, line), [railroad, state, line]);
  const ways = useMemo(
    () => (refused === null ? [] : waysOut({ railroad, state }, refused, source.seconds)),
    [refused, railroad, state, source.seconds],
  );

  const send = useCallback(
    async (items: readonly BatchItem[]): Promise<boolean> => {
      if (busy.current || items.length === 0) return false;
      busy.current = true;
      const sent = await source.send(items).finally(() => {
        busy.current = false;
      });
      setProblem(sent.problem);
      setRefused(sent.refused ?? sent.events.find(({ outcome }) => outcome === 'refused') ?? null);
      setChosen(0);
      setSaid(null);
      const train = items
        .map(({ input }) => ('train' in input ? input.train : undefined))
        .find((id) => id !== undefined);
      if (typeof train === 'string') setFollow(train as TrainId);
      return sent.problem === null;
    },
    [source],
  );
  const sendInputs = (inputs: readonly SessionInput[]) => void send(inputs.map((input) => ({ input })));

  const explain = (about: string | null) => {
    const last =
      about === null ? [...recent].reverse().find(({ outcome }) => outcome === 'refused') : undefined;
    const ask = about === null ? undefined : state.asks.find(({ train }) => train === about);
    if (last !== undefined) setRefused(last);
    else setProblem(ask?.reasons.map(({ says }) => says).join(' ') ?? 'Nothing was refused.');
  };

  const enter = async () => {
    if (meaning.kind === 'why') explain(meaning.about);
    else if (meaning.kind === 'expects') setProblem(meaning.says);
    else if (meaning.kind === 'batch') {
      const items = meaning.items.map((item) => ('otherwise' in item ? item : confirmed(item.input)));
      if (!(await send(items))) return;
    } else return;
    setLine('');
  };

  const takeWay = (way: WayOut) => {
    if (way.href !== undefined) window.location.hash = way.href;
    else if (way.items.length === 0) setRefused(null);
    else void send(way.items);
    if (way.says === 'wait') setRefused(null);
  };

  const act = (name: ActName) => {
    const answer = actAnswer(name, { source, pending, next });
    if (answer.kind === 'send') void send(answer.items);
    else if (answer.kind === 'later') setLater((ids) => [...ids.filter((id) => id !== answer.id), answer.id]);
    else if (answer.kind === 'why') explain(null);
    else if (answer.kind === 'nothing') setProblem(answer.says);
    else if (answer.kind === 'again') {
      const train = follow ?? authoritiesInForce(state).at(-1)?.authority.train;
      setSaid(train === undefined ? null : sayAgain({ railroad, state }, train));
    } else {
      setStopOffered(true);
      if (state.phase === 'running')
        sendInputs([{ do: 'stop-all', why: 'called by the dispatcher', kind: 'emergency' }]);
    }
  };

  const spoken = useMemo(
    () => lastSpoken({ railroad, state, recent, openedAt: source.openedAt } as DeskSource),
    [railroad, state, recent, source.openedAt],
  );
  return {
    line,
    setLine,
    meaning,
    enter,
    pending,
    next,
    refused,
    ways,
    chosen,
    setChosen,
    problem,
    setProblem,
    dismiss: () => {
      setRefused(null);
      setProblem(null);
      setStopOffered(false);
    },
    stopOffered,
    takeWay,
    act,
    send,
    sendInputs,
    follow,
    setFollow,
    spoken: said ?? spoken,
  };
}

export type Desk = ReturnType<typeof useDesk>;
