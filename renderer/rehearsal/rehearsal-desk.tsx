/** One rehearsal on the screen: what it began with, the board with a frame that says that it is not live, and the sheets below it. */
import { useEffect, useId, useMemo, useState } from 'react';
import type { BlockId } from '../../shared-model/ids.ts';
import type { SituationJson } from '../../shared-model/planning/situation.ts';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { CapacitySheet } from './capacity-sheet.tsx';
import { HappenedSheet } from './happened-sheet.tsx';
import { Keep } from './keep.tsx';
import { keepMadeReal } from './keep-made-real.ts';
import { type KeptRehearsal, keptOf, newName } from './kept-rehearsal.ts';
import { KeptSheet } from './kept-sheet.tsx';
import { LeftWords } from './left-words.tsx';
import { RealSheet } from './make-real.tsx';
import { againFrom, type Origin, originsFor } from './origin.ts';
import { PlanSheet } from './plan-sheet.tsx';
import type { PresentRehearsal } from './present-rehearsal.ts';
import { RehearsalBoard } from './rehearsal-board.tsx';
import { type RailroadChoice, RehearsalHead } from './rehearsal-head.tsx';
import { type SheetKey, SheetTabs } from './sheet-tabs.tsx';
import { TrainsSheet } from './trains-sheet.tsx';
import { useBoardShown } from './use-board-shown.ts';
import { useRehearsal } from './use-rehearsal.ts';
import { useRehearsalKeys } from './use-rehearsal-keys.ts';
import { SAFE_EFFORT, Verdict } from './verdict.tsx';
import type { Way } from './ways.ts';
import { WaysSheet } from './ways-sheet.tsx';
import { trainWords } from './words.ts';
import { Working } from './working.tsx';

interface RehearsalDeskProps {
  readonly origin: Origin;
  readonly opened: PresentRehearsal | null;
  readonly kept: ReplyOf<'keep.list'>;
  /** What was left at work without a name, elsewhere or before. */
  readonly others: ReplyOf<'keep.list'>;
  /** Why what was left last could not be taken up. */
  readonly damaged: string | null;
  readonly live: FollowedEvening | null;
  readonly onBegin: (key: string) => void;
  readonly onOpen: (rehearsal: KeptRehearsal, keptAs: string | null) => void;
  readonly onKept: () => void;
  /** Plans again from how the live evening stands, with these destinations; seconds since the plan's beginning. */
  readonly onAgain: (wishes: SituationJson['trains'], since: number) => void;
  /** What there is of it to come back to: nothing, where it is as it began. */
  readonly onChange: (present: Pick<PresentRehearsal, 'rehearsal' | 'keptAs'> | null) => void;
  /** Brings back the rehearsal before this one; null where there is none. */
  readonly onBefore: (() => void) | null;
  /** Whether it is planned as soon as it begins. */
  readonly asks: boolean;
  readonly railroads: RailroadChoice | null;
}

const BEGUN_ANEW = 'beginning anew';

export function RehearsalDesk({
  origin,
  opened,
  kept,
  others,
  damaged,
  live,
  asks,
  railroads,
  onBegin,
  onOpen,
  onKept,
  onAgain,
  onChange,
  onBefore,
}: RehearsalDeskProps) {
  const before = opened?.rehearsal;
  const rehearsal = useRehearsal(origin, {
    plans: before?.plans ?? [],
    chosen: before?.chosen ?? 0,
    madeReal: before?.madeReal ?? null,
  });
  const [given, setName] = useState(before?.name ?? null);
  const name = given ?? newName(kept.map(({ id }) => id));
  const [keptAs, setKeptAs] = useState(opened?.keptAs ?? null);
  const [sheet, setSheet] = useState<SheetKey>(
    origin.key === 'left' && before?.madeReal != null
      ? 'real'
      : (asks && rehearsal.parsed.ok) || (before?.plans.length ?? 0) > 0
        ? 'plan'
        : 'trains',
  );
  const [step, setStep] = useState(0);
  const [isAlone, setAlone] = useState(false);
  const [picked, setPicked] = useState<string | null>(null);
  const [way, setWay] = useState<Way | null>(null);
  const [next, setNext] = useState<readonly string[]>([]);
  const sheetId = useId();
  const { connection } = useConsoleStore();
  const { json, parsed, plans, seen, safe, planning } = rehearsal;
  const steps = seen?.played.steps.length ?? 0;
  const at = Math.min(step, steps);
  const shown = useBoardShown(rehearsal, live, {
    step: sheet === 'plan' ? at : 0,
    way,
    present: sheet === 'real' || sheet === 'happened',
    next,
  });
  const notNow = !parsed.ok
    ? 'Mend what is wrong with the trains first.'
    : json.trains.every(({ to }) => to === undefined)
      ? 'Give a train somewhere to go first.'
      : undefined;
  const atWork = 'It is being worked out.';
  const { chosen, madeReal } = rehearsal;
  const value = useMemo(
    () => keptOf({ origin, json, plans, chosen, madeReal }, name),
    [origin, json, plans, chosen, madeReal, name],
  );
  const isAsItBegan = opened === null && !asks && json === origin.json && plans.length === 0;
  useEffect(
    () => onChange(isAsItBegan ? null : { rehearsal: value, keptAs }),
    [onChange, isAsItBegan, value, keptAs],
  );
  // Once, when it begins: the question was asked before.
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is asked is what it begins with
  useEffect(() => {
    if (asks && notNow === undefined) rehearsal.askPlan();
  }, [asks]);
  /** What was made real of this one can be held against what happened afterwards, too: it is kept first. */
  const again = async (since: number) => {
    await keepMadeReal(connection, value, keptAs);
    onKept();
    onAgain(json.trains, since);
  };
  const beginnings = originsFor(live, live?.railroad ?? origin.railroad);
  const discard = () => onBegin(againFrom(origin, beginnings));
  const takeBack = () => (rehearsal.last === null ? onBefore?.() : rehearsal.takeBack());
  useRehearsalKeys(rehearsal, { takeBack, discard });

  /** A sheet begins at its top, where the answer comes too. */
  const goToTop = (to: SheetKey) => {
    setSheet(to);
    document.getElementById(sheetId)?.scrollTo(0, 0);
  };
  const goesTo = (to: BlockId) => {
    const trains = json.trains.map((train) => (train.train === picked ? { ...train, to } : train));
    rehearsal.change(`${trainWords(origin.railroad, picked ?? '')}: where it is to go`, { ...json, trains });
    setPicked(null);
  };
  return (
    <div className="rehearsal" data-sheet={sheet} data-alone={isAlone || undefined}>
      <RehearsalHead
        origin={origin}
        isReal={sheet === 'real'}
        beginnings={beginnings}
        railroads={railroads}
        onBegin={onBegin}
        onDiscard={discard}
        last={rehearsal.last ?? (onBefore === null ? null : BEGUN_ANEW)}
        onTakeBack={takeBack}
      >
        <Keep
          value={value}
          name={name}
          kept={kept}
          keptAs={keptAs}
          onName={setName}
          onKept={(as) => {
            setName(as);
            setKeptAs(as);
            onKept();
          }}
        />
        <LeftWords opened={origin.key === 'left' ? opened : null} kept={kept} damaged={damaged} />
      </RehearsalHead>
      <RehearsalBoard shown={shown} picking={sheet === 'trains' && picked !== null} onBlock={goesTo} />
      <div className="rehearsal-asks">
        <Act
          onPress={() => {
            goToTop('trains');
            rehearsal.askSafe(SAFE_EFFORT);
          }}
          notNow={notNow ?? (safe.state.is === 'working' ? atWork : undefined)}
        >
          Can I?
        </Act>
        <Act
          onPress={() => {
            setStep(0);
            goToTop('plan');
            rehearsal.askPlan();
          }}
          notNow={notNow ?? (planning.state.is === 'working' ? atWork : undefined)}
        >
          {plans.length === 0 ? 'In which order?' : 'Another plan'}
        </Act>
        {notNow === undefined ? null : <p className="quiet">{notNow}</p>}
        <Working rehearsal={rehearsal} />
        <SheetTabs
          sheet={sheet}
          shownIn={sheetId}
          counts={{ plan: plans.length, kept: kept.length + others.length }}
          onSheet={goToTop}
        />
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by the keyboard */}
      <div id={sheetId} role="tabpanel" className="rehearsal-sheet" aria-label={sheet} tabIndex={0}>
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
            <PlanSheet
              rehearsal={rehearsal}
              step={at}
              onStep={setStep}
              onReal={() => goToTop('real')}
              isAlone={isAlone}
              onAlone={setAlone}
            />
          </>
        ) : null}
        {sheet === 'real' ? (
          <RealSheet rehearsal={rehearsal} onAgain={(since) => void again(since)} onNext={setNext} />
        ) : null}
        {sheet === 'ways' ? <WaysSheet rehearsal={rehearsal} onLook={setWay} /> : null}
        {sheet === 'capacity' ? <CapacitySheet rehearsal={rehearsal} /> : null}
        {sheet === 'happened' ? <HappenedSheet rehearsal={rehearsal} /> : null}
        {sheet === 'kept' ? (
          <KeptSheet kept={kept} others={others} onOpen={onOpen} onChanged={onKept} />
        ) : null}
      </div>
    </div>
  );
}
