/** The Desk: every zone keeps its place at every size, and nothing ever covers the board, NEXT or CALL ALL STOP. */
import { type CSSProperties, type ReactNode, useEffect, useRef, useState } from 'react';
import { Band } from './band.tsx';
import { BoardZone } from './board-zone.tsx';
import { CabStrips } from './cab-strips.tsx';
import { ClosingList } from './closing-list.tsx';
import type { DeskSource } from './desk-source.ts';
import { Dials } from './dials.tsx';
import { Drawer, OfferGroups } from './drawer.tsx';
import { EntryZone } from './entry-zone.tsx';
import { insertThing } from './insert-thing.ts';
import { KeyDrawer } from './key-drawer.tsx';
import { MakingUp } from './making-up/making-up.tsx';
import { MoreDrawer } from './more-drawer.tsx';
import { NextZone } from './next-zone.tsx';
import { offersFor } from './offers/offers-for.ts';
import { ENDED, type Option } from './option.ts';
import { RollCall } from './roll-call.tsx';
import { SayZone } from './say-zone.tsx';
import { StatusLine } from './status-line.tsx';
import { type Desk, useDesk } from './use-desk.ts';
import { useDeskKeys } from './use-desk-keys.ts';
import { useTone } from './use-tone.ts';
import { useVoice } from './use-voice.ts';
import './desk.css';
import './desk-band.css';
import './desk-strips.css';
import './desk-below.css';

/** What lies over the strips: a thing's offers, the keys, or the evening's. */
type Open =
  | { readonly kind: 'keys' }
  | { readonly kind: 'more' }
  | { readonly kind: 'thing'; readonly thing: string };

interface PartProps {
  readonly source: DeskSource;
  readonly desk: Desk;
}

function OpenDrawer({
  source,
  desk,
  open,
  onClose,
}: PartProps & { readonly open: Open; readonly onClose: () => void }) {
  const take = (option: Option) => {
    desk.takeOption(option);
    onClose();
  };
  if (open.kind === 'keys')
    return (
      <Drawer title="Keys" onClose={onClose}>
        <KeyDrawer desk={desk} />
      </Drawer>
    );
  if (open.kind === 'more')
    return (
      <Drawer title="More" onClose={onClose}>
        <MoreDrawer source={source} desk={desk} onTake={take} />
      </Drawer>
    );
  const { title, groups } = offersFor(source, open.thing, desk.picked);
  return (
    <Drawer title={title} onClose={onClose}>
      {source.state.phase === 'ended' ? <p>{ENDED}</p> : <OfferGroups groups={groups} onTake={take} />}
    </Drawer>
  );
}

function Right({ source, desk }: PartProps) {
  switch (source.state.phase) {
    case 'stopped':
      return <RollCall source={source} desk={desk} />;
    case 'ended':
      return <ClosingList source={source} />;
    default:
      return <NextZone source={source} desk={desk} />;
  }
}

interface DeskViewProps {
  readonly source: DeskSource;
  /** What a rehearsal or a replay says above everything. */
  readonly above?: ReactNode;
  /** What stands in the place of the strips: when the evening has ended, the way to the next one. */
  readonly after?: ReactNode;
}

export function DeskView({ source, above, after }: DeskViewProps) {
  const desk = useDesk(source);
  const input = useRef<HTMLInputElement>(null);
  const [open, setOpen] = useState<Open | null>(null);
  useDeskKeys(desk, input);
  useVoice(source, desk);
  useTone(source);
  useEffect(() => input.current?.focus(), []);

  const close = () => {
    setOpen(null);
    input.current?.focus();
  };
  /** While a line is being made, a touch puts the thing into it. */
  const touch = (thing: string) => {
    const line = insertThing(source, desk.line, thing);
    if (line !== null) desk.changeLine(line);
    else setOpen(open?.kind === 'thing' && open.thing === thing ? null : { kind: 'thing', thing });
  };
  const openThing = open?.kind === 'thing' ? open.thing : null;
  const { throttles } = source.railroad.document;
  const style = { '--strips': throttles.length > 4 ? Math.ceil(throttles.length / 2) : throttles.length };
  return (
    <div
      className="desk"
      data-kind={source.kind}
      data-phase={source.state.phase}
      data-entries={source.state.entries}
      style={style as unknown as CSSProperties}
    >
      {above}
      <StatusLine source={source} locked={desk.locked} />
      <BoardZone source={source} desk={desk} onOpen={touch} />
      <Band source={source} desk={desk} />
      <div className="desk-middle">
        <section className="desk-cabs" data-zone="cabs" aria-label="Cabs">
          {source.state.phase === 'making-up' ? (
            <MakingUp source={source} desk={desk} />
          ) : (
            (after ?? <CabStrips source={source} desk={desk} onOpen={touch} />)
          )}
          {open === null ? null : <OpenDrawer source={source} desk={desk} open={open} onClose={close} />}
        </section>
        {source.state.phase === 'making-up' ? null : <Right source={source} desk={desk} />}
      </div>
      <Dials source={source} pending={desk.pending} openThing={openThing} onOpen={touch} />
      <SayZone source={source} desk={desk} />
      <EntryZone
        desk={desk}
        input={input}
        openDrawer={open?.kind ?? null}
        onDrawer={(kind) => (open?.kind === kind ? close() : setOpen({ kind }))}
      />
    </div>
  );
}
