/** One rehearsal on the screen: what it began with, the board with a frame that says that it is not live, and the sheets below it. */
import { useEffect, useId, useState } from 'react';
import type { SituationJson } from '../../shared-model/planning/situation.ts';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { Act } from '../parts/act.tsx';
import { CapacitySheet } from './capacity-sheet.tsx';
import { HappenedSheet } from './happened-sheet.tsx';
import { type KeptRehearsal, newName } from './kept-rehearsal.ts';
import { KeptSheet } from './kept-sheet.tsx';
import { RealSheet } from './make-real.tsx';
import { type Origin, originsFor } from './origin.ts';
import { Planning, PlanSheet } from './plan-sheet.tsx';
import { RehearsalBoard } from './rehearsal-board.tsx';
import { type RailroadChoice, RehearsalHead } from './rehearsal-head.tsx';
import { TrainsSheet } from './trains-sheet.tsx';
import { type Rehearsal, useRehearsal } from './use-rehearsal.ts';
import { SAFE_EFFORT, Verdict } from './verdict.tsx';
import { WaysSheet } from './ways-sheet.tsx';

interface RehearsalDeskProps {
  readonly origin: Origin;
  readonly opened: KeptRehearsal | null;
  readonly kept: ReplyOf<'keep.list'>;
  readonly live: FollowedEvening | null;
  readonly onBegin: (key: string) => void;
  readonly onOpen: (rehearsal: KeptRehearsal) => void;
  readonly onKept: () => void;
  /** Plans again from how the live evening stands, with these destinations; seconds since the plan's beginning. */
  readonly onAgain: (wishes: SituationJson['trains'], since: number) => void;
  /** What there is of it that is not kept: nothing, where it is as it began. */
  readonly onChange: (present: KeptRehearsal | null) => void;
  /** Whether it is planned as soon as it begins. */
  readonly asks: boolean;
  readonly railroads: RailroadChoice | null;
}

/** A rehearsal as it is kept. */
function keptOf({ origin, json, plans, chosen, madeReal }: Rehearsal, name: string): KeptRehearsal {
  return {
    format: 'cabward-rehearsal/1',
    name: name.trim() === '' ? 'Rehearsal' : name.trim().slice(0, 80),
    from: origin.says,
    document: origin.railroad.document,
    situation: json as KeptRehearsal['situation'],
    underWay: [...origin.underWay].map(([train, { blocks, entered }]) => ({
      train,
      blocks: [...blocks],
      entered,
    })),
    plans: [...plans],
    chosen,
    madeReal,
  };
}

const SHEETS = [
  { key: 'trains', says: 'Trains' },
  { key: 'plan', says: 'In which order' },
  { key: 'real', says: 'Make it real' },
  { key: 'ways', says: 'Which way' },
  { key: 'capacity', says: 'How many' },
  { key: 'happened', says: 'What happened' },
  { key: 'kept', says: 'Kept' },
] as const;
type SheetKey = (typeof SHEETS)[number]['key'];

export function RehearsalDesk({
  origin,
  opened,
  kept,
  live,
  asks,
  railroads,
  onBegin,
  onOpen,
  onKept,
  onAgain,
  onChange,
}: RehearsalDeskProps) {
  const rehearsal = useRehearsal(origin, {
    plans: opened?.plans ?? [],
    chosen: opened?.chosen ?? 0,
    madeReal: opened?.madeReal ?? null,
  });
  const [name, setName] = useState(opened?.name ?? newName(kept.map(({ id }) => id)));
  const [sheet, setSheet] = useState<SheetKey>(asks || (opened?.plans.length ?? 0) > 0 ? 'plan' : 'trains');
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
  const value = keptOf(rehearsal, name);
  const isAsItBegan = json === origin.json && plans.length === 0;
  useEffect(() => onChange(isAsItBegan ? null : value), [onChange, isAsItBegan, value]);
  // Once, when it begins: the question was asked before.
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is asked is what it begins with
  useEffect(() => {
    if (asks && notNow === undefined) rehearsal.askPlan();
  }, [asks]);
  return (
    <div className="rehearsal" data-sheet={sheet}>
      <RehearsalHead
        origin={origin}
        beginnings={originsFor(live, live?.railroad ?? origin.railroad)}
        railroads={railroads}
        value={value}
        name={name}
        onName={setName}
        onBegin={onBegin}
        onKept={onKept}
      />
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
            <PlanSheet rehearsal={rehearsal} step={at} onStep={setStep} onReal={() => setSheet('real')} />
          </>
        ) : null}
        {sheet === 'real' ? (
          <RealSheet rehearsal={rehearsal} onAgain={(since) => onAgain(json.trains, since)} />
        ) : null}
        {sheet === 'ways' ? <WaysSheet rehearsal={rehearsal} /> : null}
        {sheet === 'capacity' ? <CapacitySheet rehearsal={rehearsal} /> : null}
        {sheet === 'happened' ? <HappenedSheet rehearsal={rehearsal} /> : null}
        {sheet === 'kept' ? <KeptSheet kept={kept} onOpen={onOpen} onChanged={onKept} /> : null}
      </div>
    </div>
  );
}
