/** The Desk: every zone keeps its place at every size, and nothing ever covers the board, NEXT or CALL ALL STOP. */
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { sayStopAll } from '../../shared-model/session/say.ts';
import { Board } from '../board/board.tsx';
import { boardView } from '../board/board-view.ts';
import { liveOptions } from '../board/live-options.ts';
import { Act } from '../parts/act.tsx';
import { Band } from './band.tsx';
import { CabStrips } from './cab-strips.tsx';
import type { DeskSource } from './desk-source.ts';
import { Dials } from './dials.tsx';
import { confirmed } from './entry-line/meaning.ts';
import { EntryZone } from './entry-zone.tsx';
import { MakingUp } from './making-up.tsx';
import { NextZone } from './next-zone.tsx';
import { StatusLine } from './status-line.tsx';
import { ClosingList, StoppedZone } from './stopped-zone.tsx';
import { ThingActs } from './thing-acts.tsx';
import { type Desk, useDesk } from './use-desk.ts';
import { useDeskKeys } from './use-desk-keys.ts';
import './desk.css';

function useBoard(source: DeskSource, desk: Desk) {
  const { railroad, state } = source;
  const { pending, refused } = desk;
  return useMemo(() => {
    const live = liveOptions(railroad, state);
    const marks = new Map(live.marks);
    for (const reason of refused?.reasons ?? [])
      for (const thing of reason.about) if (!marks.has(thing)) marks.set(thing, 'refused');
    const first = pending[0];
    const next = new Set(first === undefined ? [] : [String(first.thrown.id), first.thrown.block]);
    const pressable = new Set([...Object.keys(state.blocks), ...Object.keys(state.turnouts)]);
    return boardView(railroad, state, { ...live, marks, next, pressable });
  }, [railroad, state, pending, refused]);
}

function SayZone({ source, desk }: { readonly source: DeskSource; readonly desk: Desk }) {
  const words = desk.stopOffered ? sayStopAll(source.railroad) : desk.spoken;
  return (
    <section className="desk-say" data-zone="say" aria-label="Say">
      <h2 className="unseen">Say</h2>
      <p>{source.state.alone || words === null ? '' : `"${words}"`}</p>
      <Act kind="calm" onPress={() => desk.act('say-again')} keyName="*">
        Again
      </Act>
    </section>
  );
}

function MiddleRight({ source, desk }: { readonly source: DeskSource; readonly desk: Desk }) {
  if (source.state.phase === 'stopped') return <StoppedZone source={source} onSend={desk.sendInputs} />;
  if (source.state.phase === 'ended') return <ClosingList source={source} />;
  return <NextZone source={source} next={desk.next} pending={desk.pending} onAct={desk.act} />;
}

/** @param above what a rehearsal or a replay says above everything */
export function DeskView({ source, above }: { readonly source: DeskSource; readonly above?: ReactNode }) {
  const desk = useDesk(source);
  const input = useRef<HTMLInputElement>(null);
  const [open, setOpen] = useState<string | null>(null);
  useDeskKeys(desk, input);
  useEffect(() => input.current?.focus(), []);
  const view = useBoard(source, desk);
  const next = useMemo(
    () => new Map(desk.pending.slice(0, 3).map(({ thrown }) => [String(thrown.id), String(thrown.to)])),
    [desk.pending],
  );
  const making = source.state.phase === 'making-up';
  return (
    <div className="desk" data-kind={source.kind} data-phase={source.state.phase}>
      {above}
      <StatusLine source={source} />
      <div className="desk-board">
        <Board
          railroad={source.railroad}
          view={view}
          label={source.kind === 'live' ? 'Board, live' : 'Board, rehearsal'}
          onOpen={setOpen}
          follow={desk.follow ?? undefined}
        />
      </div>
      <Band
        source={source}
        refused={desk.refused}
        ways={desk.ways}
        chosen={desk.chosen}
        problem={desk.problem}
        onWay={desk.takeWay}
        onSend={(items) => void desk.send(items)}
      />
      <div className="desk-middle">
        {open === null ? null : (
          <ThingActs
            source={source}
            thing={open}
            train={desk.follow}
            onSend={desk.sendInputs}
            onClose={() => setOpen(null)}
          />
        )}
        {making ? (
          <MakingUp source={source} follow={desk.follow} onFollow={desk.setFollow} onSend={desk.sendInputs} />
        ) : (
          <>
            <CabStrips
              source={source}
              follow={desk.follow}
              onFollow={desk.setFollow}
              onSend={desk.sendInputs}
            />
            <MiddleRight source={source} desk={desk} />
          </>
        )}
      </div>
      <Dials
        source={source}
        next={next}
        onThrow={(order) => void desk.send([confirmed(order)])}
        onReport={(report) => desk.sendInputs([report])}
      />
      <SayZone source={source} desk={desk} />
      <EntryZone
        source={source}
        line={desk.line}
        meaning={desk.meaning}
        input={input}
        onLine={desk.setLine}
        onEnter={() => void desk.enter()}
        onChoose={(name) => desk.setLine(`${desk.line.split(/\s+/).slice(0, -1).join(' ')} ${name}`.trim())}
        onStop={() => desk.act('stop-all')}
      />
    </div>
  );
}
