/** The Desk's own state: the line, the last answer and its ways out, what is offered, throws put off, who is picked; and how acts are done. */
import { useCallback, useMemo, useRef, useState } from 'react';
import type { TrainId } from '../../shared-model/ids.ts';
import { glanceAhead } from '../../shared-model/planning/look-ahead.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import type { ActName } from '../keys/acts.ts';
import { doingOfAct, grantTo } from './desk-acts.ts';
import type { DeskMoment, DeskSource } from './desk-source.ts';
import { completionsFor } from './entry-line/complete.ts';
import { readTyped } from './entry-line/read-typed.ts';
import { type Reading, send } from './entry-line/reading.ts';
import { type Explained, explain } from './explain.ts';
import { inParts } from './in-parts.ts';
import { nextAct, pendingThrows } from './next-act.ts';
import { onwards } from './onward.ts';
import { type Doing, firstPick, type Option, optionOf, tell } from './option.ts';
import { plannedNext } from './plan-next.ts';
import { useQueue } from './use-queue.ts';
import { useSaying } from './use-saying.ts';
import { waysOut } from './ways-out.ts';

/** Several things of which one is chosen. */
export interface Offer {
  readonly says: string;
  readonly options: readonly Option[];
}

/** The train that a batch is about: it is followed on the board and picked for what comes next. */
function trainIn(items: readonly BatchItem[]): TrainId | null {
  const input = items.map((item) => item.input).find((one) => 'train' in one);
  return input !== undefined && 'train' in input ? (input.train as TrainId) : null;
}

/** What a typed line does; the first of several when Enter is pressed once more. */
function doingOfReading(reading: Reading): Doing {
  switch (reading.kind) {
    case 'empty':
      return tell('Type a train, a thing or a word: 7 to quarry, k4 2, stop.');
    case 'expected':
      return tell(reading.says);
    case 'one':
      return { kind: 'do', option: optionOf(reading.proposal) };
    case 'several':
      return { kind: 'choose', says: 'Which?', options: reading.proposals.map(optionOf) };
  }
}

export function useDesk(source: DeskSource) {
  const [line, setLine] = useState('');
  const [answer, setAnswer] = useState<Explained | null>(null);
  const [offered, setOffered] = useState<Offer | null>(null);
  const [optionAt, setOptionAt] = useState<number | null>(null);
  const [later, setLater] = useState<readonly string[]>([]);
  const [picked, setPicked] = useState<TrainId | null>(null);
  const [locked, setLocked] = useState(false);
  const enqueue = useQueue();
  const now = useRef({ source, later });
  now.current = { source, later };

  const { railroad, state, recent, plan } = source;
  const context = useMemo(
    () => ({ railroad, state, recent, plan, lookAhead: glanceAhead }),
    [railroad, state, recent, plan],
  );
  const pending = useMemo(() => pendingThrows(context, later), [context, later]);
  const ways = useMemo(() => onwards(context, later), [context, later]);
  const planned = useMemo(() => plannedNext(context, later), [context, later]);
  const next = useMemo(() => nextAct(context, pending, later), [context, pending, later]);
  const reading = useMemo(() => readTyped(context, line), [context, line]);
  const completions = useMemo(() => completionsFor(context, line), [context, line]);
  const saying = useSaying(source, picked);

  /** What stands in the band to be chosen from: by the line while it is typed, else by an act, else the ways out of a refusal. */
  const refusedWays = useMemo(
    () => (answer?.kind === 'refused' ? waysOut(context, answer.event, state.at) : []),
    [answer, context, state.at],
  );
  const offer: Offer | null =
    reading.kind === 'several'
      ? { says: 'Which?', options: reading.proposals.map(optionOf) }
      : (offered ?? (refusedWays.length === 0 ? null : { says: '', options: refusedWays }));

  /** @returns whether the host took it; a refusal is taken too */
  const sendNow = useCallback(async (items: readonly BatchItem[]): Promise<boolean> => {
    for (const part of inParts(items)) {
      const sent = await now.current.source.send(part);
      const refused = sent.refused ?? sent.events.find(({ outcome }) => outcome === 'refused');
      if (sent.problem !== null) setAnswer({ kind: 'told', says: sent.problem });
      else setAnswer(refused === undefined ? null : { kind: 'refused', event: refused });
      if (sent.problem !== null) return false;
    }
    const train = trainIn(items);
    if (train !== null) setPicked(train);
    return true;
  }, []);

  const doNow = useCallback(
    async (doing: Doing, moment: DeskMoment): Promise<boolean> => {
      setOffered(null);
      setOptionAt(null);
      if (doing.kind === 'tell') setAnswer({ kind: 'told', says: doing.says });
      else if (doing.kind === 'choose') {
        setOffered({ says: doing.says, options: doing.options });
        setOptionAt(0);
      } else if (doing.kind === 'later')
        setLater((keys) => [...keys.filter((key) => key !== doing.key), doing.key]);
      else if (doing.kind === 'say-again') saying.again();
      else if (doing.kind === 'lock') setLocked((before) => !before);
      else if (doing.kind === 'stop') {
        saying.stopAll();
        // A copy that stands already passes it on: from a rehearsal it goes to the live evening, too.
        if (moment.state.phase === 'running' || now.current.source.kind === 'rehearsal')
          return sendNow([{ input: { do: 'stop-all', why: 'called', kind: 'emergency' } }]);
      } else {
        const { does } = doing.option;
        if (does.kind === 'send') return sendNow(does.items);
        if (does.kind === 'why') setAnswer(explain(moment, does.about));
        else if (does.kind === 'pick') setPicked(does.train);
        else if (does.kind === 'plan') {
          const { plan, planAside, doPlan } = now.current.source;
          if (doPlan !== undefined && (plan != null || planAside != null)) doPlan(does.does);
          else setAnswer({ kind: 'told', says: 'No plan is carried out here.' });
        } else if (does.kind === 'leave') setAnswer(null);
        else if (does.kind === 'type') setLine(does.line);
        else window.location.hash = does.address;
      }
      return true;
    },
    [saying, sendNow],
  );

  /** Does what is decided when its turn comes, on the evening as it then is. */
  const perform = useCallback(
    (decide: (moment: DeskMoment, later: readonly string[]) => Doing, typed = '') =>
      enqueue(async () => {
        const moment = now.current.source.latest();
        const taken = await doNow(decide(moment, now.current.later), moment);
        // What could not be sent is not typed twice, unless another line was begun meanwhile.
        if (!taken && typed !== '') setLine((line) => (line === '' ? typed : line));
      }),
    [enqueue, doNow],
  );

  const takeOption = useCallback(
    (option: Option) => {
      setLine('');
      perform(() => ({ kind: 'do', option }));
    },
    [perform],
  );

  return {
    context,
    line,
    changeLine: (text: string) => {
      setLine(text);
      setOptionAt(null);
    },
    reading,
    completions,
    submit: () => {
      const typed = line;
      if (reading.kind === 'several') setOptionAt(0);
      else if (reading.kind === 'expected') setAnswer({ kind: 'told', says: reading.says });
      else {
        setLine('');
        perform((moment) => doingOfReading(readTyped(moment, typed)), typed);
      }
    },
    pending,
    /** The ways on as before, the first one first. */
    ways,
    /** The orders of the plan that have their turn. */
    planned,
    next,
    answer,
    offer,
    optionAt,
    movePick: (by: 1 | -1) =>
      setOptionAt((at) => {
        const options = offer?.options ?? [];
        const count = options.length;
        if (count === 0) return null;
        return at === null ? (by === 1 ? firstPick(options) : count - 1) : (at + by + count) % count;
      }),
    takeOption,
    takePicked: () => {
      const option = optionAt === null ? undefined : offer?.options[optionAt];
      if (option !== undefined) takeOption(option);
    },
    tell: (says: string) => setAnswer({ kind: 'told', says }),
    leave: () => {
      setLine('');
      setAnswer(null);
      setOffered(null);
      setOptionAt(null);
      source.noticeSeen?.();
    },
    act: (name: ActName) => {
      const named =
        reading.kind === 'one' && reading.proposal.act.kind === 'pick' ? reading.proposal.act : null;
      if ((name !== 'grant-ask' && name !== 'grant-far') || named === null)
        return perform((moment, put) => doingOfAct(name, moment, put));
      setLine('');
      perform((moment) => grantTo(moment, named.train, name === 'grant-far'));
    },
    doThis: (doing: Doing) => perform(() => doing),
    sendItems: (items: readonly BatchItem[]) =>
      perform(() => ({ kind: 'do', option: { says: '', does: { kind: 'send', items } } })),
    sendInputs: (inputs: readonly SessionInput[]) =>
      perform(() => ({ kind: 'do', option: optionOf(send('', ...inputs)) })),
    picked,
    pick: setPicked,
    saying,
    locked,
  };
}

export type Desk = ReturnType<typeof useDesk>;
