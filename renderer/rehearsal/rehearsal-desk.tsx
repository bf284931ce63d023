/** One rehearsal on the screen: what it began with, the board with a frame that says that it is not live, and the sheets below it. */
import { useId, useMemo, useState } from 'react';
import type { BlockId } from '../../shared-model/ids.ts';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import { Board } from '../board/board.tsx';
import { boardView } from '../board/board-view.ts';
import type { BoardMark } from '../board/board-words.ts';
import { liveOptions } from '../board/live-options.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { TextBox } from '../parts/field.tsx';
import { Pick } from '../parts/pick.tsx';
import { CapacitySheet } from './capacity-sheet.tsx';
import { HappenedSheet } from './happened-sheet.tsx';
import { type KeptRehearsal, REHEARSALS } from './kept-rehearsal.ts';
import { KeptSheet } from './kept-sheet.tsx';
import { type Origin, originsFor } from './origin.ts';
import { Planning, PlanSheet } from './plan-sheet.tsx';
import { TrainsSheet } from './trains-sheet.tsx';
import { type Rehearsal, useRehearsal } from './use-rehearsal.ts';
import { lockedBlocks, SAFE_EFFORT, Verdict } from './verdict.tsx';
import { WaysSheet } from './ways-sheet.tsx';

interface RehearsalDeskProps {
  readonly origin: Origin;
  readonly opened: KeptRehearsal | null;
  readonly kept: ReplyOf<'keep.list'>;
  readonly live: FollowedEvening | null;
  readonly onBegin: (key: string) => void;
  readonly onOpen: (rehearsal: KeptRehearsal) => void;
  readonly onKept: () => void;
}

const SHEETS = [
  { key: 'trains', says: 'Trains' },
  { key: 'plan', says: 'In which order' },
  { key: 'ways', says: 'Which way' },
  { key: 'capacity', says: 'How many' },
  { key: 'happened', says: 'What happened' },
  { key: 'kept', says: 'Kept' },
] as const;
type SheetKey = (typeof SHEETS)[number]['key'];

interface RehearsalBoardProps {
  readonly rehearsal: Rehearsal;
  readonly step: number;
  /** The train that a touched block is the destination of. */
  readonly picked: string | null;
  readonly onPicked: () => void;
}

/** The board of the rehearsal: as it stands at the step that is looked at. */
function RehearsalBoard({ rehearsal, step, picked, onPicked }: RehearsalBoardProps) {
  const { origin, fork, seen } = rehearsal;
  const answer = rehearsal.safe.state;
  const state = step === 0 ? fork?.evening.state : seen?.played.steps[step - 1]?.state;
  const locked = useMemo(() => lockedBlocks(answer), [answer]);
  const view = useMemo(() => {
    if (state === undefined) return null;
    const options = liveOptions(origin.railroad, state);
    const marks = new Map<string, BoardMark>(options.marks);
    for (const block of locked) marks.set(block, 'refused');
    const pressable = new Set<string>(picked === null ? [] : origin.railroad.blocks.keys());
    return boardView(origin.railroad, state, { ...options, marks, pressable });
  }, [origin.railroad, state, locked, picked]);
  const goTo = (block: string) => {
    const { json, change } = rehearsal;
    if (picked === null || !origin.railroad.blocks.has(block as BlockId)) return;
    const to = block as BlockId;
    change({
      ...json,
      trains: json.trains.map((train) => (train.train === picked ? { ...train, to } : train)),
    });
    onPicked();
  };
  return (
    <div className="rehearsal-board" data-zone="board">
      {view === null ? (
        <p className="rehearsal-no-board">The board is drawn when what stands below it is right.</p>
      ) : (
        <Board railroad={origin.railroad} view={view} label="Board, rehearsal" onOpen={goTo} />
      )}
      <span className="rehearsal-watermark" aria-hidden="true">
        rehearsal
      </span>
    </div>
  );
}

interface KeepProps {
  readonly rehearsal: Rehearsal;
  readonly name: string;
  readonly onName: (name: string) => void;
  readonly onKept: () => void;
}

function Keep({ rehearsal, name, onName, onKept }: KeepProps) {
  const { connection } = useConsoleStore();
  const [says, setSays] = useState<string | null>(null);
  const keep = async () => {
    const { origin, json, plans, chosen, madeReal } = rehearsal;
    const value: KeptRehearsal = {
      format: 'cabward-rehearsal/1',
      name: name.trim(),
      from: origin.says,
      document: origin.railroad.document,
      situation: json as KeptRehearsal['situation'],
      plans: [...plans],
      chosen,
      madeReal,
    };
    const answer = await connection.call('keep.write', { kind: REHEARSALS, id: value.name, value });
    setSays(answer.ok ? `Kept as “${value.name}”.` : answer.problem.says);
    if (answer.ok) onKept();
  };
  return (
    <>
      <TextBox label="Name" value={name} onChange={onName} />
      <Act
        kind="calm"
        onPress={() => void keep()}
        notNow={
          name.trim() === ''
            ? 'Give it a name first.'
            : name.length > 80
              ? 'A name has at most 80 letters.'
              : undefined
        }
      >
        Keep it
      </Act>
      {says === null ? null : <span role="status">{says}</span>}
    </>
  );
}

export function RehearsalDesk({ origin, opened, kept, live, onBegin, onOpen, onKept }: RehearsalDeskProps) {
  const rehearsal = useRehearsal(origin, {
    plans: opened?.plans ?? [],
    chosen: opened?.chosen ?? 0,
    madeReal: opened?.madeReal ?? null,
  });
  const [name, setName] = useState(opened?.name ?? `Rehearsal ${kept.length + 1}`);
  const [sheet, setSheet] = useState<SheetKey>(opened === null ? 'trains' : 'plan');
  const [step, setStep] = useState(0);
  const [picked, setPicked] = useState<string | null>(null);
  const panel = useId();
  const { json, parsed, plans, seen, safe, planning } = rehearsal;
  const steps = seen?.played.steps.length ?? 0;
  const at = Math.min(step, steps);
  const movers = json.trains.filter(({ to }) => to !== undefined).length;
  const notNow = !parsed.ok
    ? 'Mend what is wrong with the trains first.'
    : movers === 0
      ? 'Give a train somewhere to go first.'
      : undefined;
  const beginnings = originsFor(live, live?.railroad ?? origin.railroad);
  return (
    <div className="rehearsal" data-sheet={sheet}>
      <section className="rehearsal-head" aria-label="Rehearsal">
        <strong className="rehearsal-title">Rehearsal: nothing here is live.</strong>
        <Pick
          label="Begin anew from"
          value={origin.key}
          options={
            beginnings.some(({ key }) => key === origin.key)
              ? beginnings.map(({ key, says }) => ({ value: key, says }))
              : [
                  { value: origin.key, says: `as kept, from ${origin.says}` },
                  ...beginnings.map(({ key, says }) => ({ value: key, says })),
                ]
          }
          onChange={onBegin}
        />
        <Act kind="calm" onPress={() => onBegin(origin.key === 'kept' ? 'empty' : origin.key)}>
          Discard it
        </Act>
        <Keep rehearsal={rehearsal} name={name} onName={setName} onKept={onKept} />
        <a className="rehearsal-link" href="#/rehearsal/by-hand">
          By hand, on the Desk
        </a>
      </section>
      <RehearsalBoard
        rehearsal={rehearsal}
        step={sheet === 'plan' ? at : 0}
        picked={sheet === 'trains' ? picked : null}
        onPicked={() => setPicked(null)}
      />
      <div className="rehearsal-asks">
        <Act
          onPress={() => {
            setSheet('trains');
            rehearsal.askSafe(SAFE_EFFORT);
          }}
          notNow={notNow ?? (safe.state.is === 'working' ? 'It is being worked out.' : undefined)}
        >
          Can I?
        </Act>
        <Act
          onPress={() => {
            setStep(0);
            setSheet('plan');
            rehearsal.askPlan();
          }}
          notNow={notNow ?? (planning.state.is === 'working' ? 'It is being worked out.' : undefined)}
        >
          {plans.length === 0 ? 'In which order?' : 'Another plan'}
        </Act>
        <div role="tablist" aria-label="Sheets" className="rehearsal-tabs">
          {SHEETS.map(({ key, says }) => (
            <button
              key={key}
              type="button"
              role="tab"
              className="rehearsal-tab"
              aria-selected={sheet === key}
              aria-controls={panel}
              onClick={() => setSheet(key)}
            >
              {says}
              {key === 'plan' && plans.length > 0 ? ` (${plans.length})` : ''}
              {key === 'kept' ? ` (${kept.length})` : ''}
            </button>
          ))}
        </div>
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by the keyboard */}
      <div id={panel} role="tabpanel" className="rehearsal-sheet" aria-label={sheet} tabIndex={0}>
        {sheet === 'trains' ? (
          <>
            <Verdict rehearsal={rehearsal} />
            <TrainsSheet rehearsal={rehearsal} picked={picked} onPick={setPicked} />
          </>
        ) : null}
        {sheet === 'plan' ? (
          <>
            {plans.length === 0 && planning.state.is === 'idle' ? (
              <p>No plan yet. Give the trains somewhere to go, then ask “In which order?”.</p>
            ) : null}
            <Planning rehearsal={rehearsal} />
            <PlanSheet rehearsal={rehearsal} step={at} onStep={setStep} />
          </>
        ) : null}
        {sheet === 'ways' ? <WaysSheet rehearsal={rehearsal} /> : null}
        {sheet === 'capacity' ? <CapacitySheet rehearsal={rehearsal} /> : null}
        {sheet === 'happened' ? <HappenedSheet rehearsal={rehearsal} /> : null}
        {sheet === 'kept' ? <KeptSheet kept={kept} onOpen={onOpen} onChanged={onKept} /> : null}
      </div>
    </div>
  );
}
