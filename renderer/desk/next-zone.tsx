/** NEXT: the next throw in far letters, the oldest ask that has become free, or the question whether a block is clear. */
import { called } from '../../shared-model/session/rules/sentences.ts';
import type { PlannedOrder } from '../carrying/carried-plan.ts';
import { Act } from '../parts/act.tsx';
import { Badge } from '../parts/badge.tsx';
import type { DeskSource } from './desk-source.ts';
import type { NextAct } from './next-act.ts';
import { NextWords, OnwardWords, PlannedWords, ThrowWords } from './next-words.tsx';
import { type PendingThrow, throwKey } from './pending-throw.ts';
import { plannedWords, planWaits, strayWords } from './plan-next.ts';
import type { Desk } from './use-desk.ts';

interface NextProps {
  readonly source: DeskSource;
  readonly desk: Desk;
}

/** What to mind: the handle, the way round, whose handles go to zero first, and what it guards. */
function adviceOf({ railroad }: DeskSource, { thrown, zeroFirst = [], for: why }: PendingThrow): string {
  const zero = zeroFirst.map((cab) => `${railroad.throttles.get(cab)?.name ?? cab}'s handle to zero first.`);
  const whose =
    why === 'turn-back' ? 'It stands wrong: turn it back.' : why === 'guard' ? 'Guard beyond the limit.' : '';
  return [whose, thrown.advice ?? '', ...zero].filter((words) => words !== '').join(' ');
}

function Others({ source, list }: { readonly source: DeskSource; readonly list: readonly PendingThrow[] }) {
  if (list.length === 0) return null;
  return (
    <p className="desk-then">
      then{' '}
      {list.map((other, index) => (
        <span key={throwKey(other.thrown)}>
          {index > 0 ? ', ' : ''}
          <ThrowWords thrown={other.thrown} />
          {other.thrown.waitsFor.length === 0
            ? ''
            : ` (waits: ${other.thrown.waitsFor.map((id) => called(source, id)).join(', ')})`}
        </span>
      ))}
    </p>
  );
}

const SHOWN_OTHERS = 4;

function ThrowNext({ source, desk, pending }: NextProps & { readonly pending: PendingThrow }) {
  const others = desk.pending.filter((other) => other !== pending).slice(0, SHOWN_OTHERS);
  const index = source.railroad.document.throttles.findIndex(({ id }) => id === pending.cab);
  const name = index < 0 ? 'it' : (source.railroad.document.throttles[index]?.name ?? '');
  return (
    <>
      <div className="desk-about">
        <p>{adviceOf(source, pending)}</p>
        <Others source={source} list={others} />
        <WayOn source={source} desk={desk} />
      </div>
      <div className="desk-acts">
        <Act onPress={() => desk.act('throw-done')} keyName="0">
          Done
        </Act>
        <Act onPress={() => desk.act('cab-throws-done')} keyName="8" label={`All for ${name}`}>
          All for {index < 0 ? 'it' : <Badge index={index} mark={pending.cab ?? ''} size={26} />}
        </Act>
        <Act onPress={() => desk.act('throw-later')} keyName="-">
          Later
        </Act>
      </div>
    </>
  );
}

function AskNext({ desk }: Pick<NextProps, 'desk'>) {
  return (
    <>
      <div className="desk-about">
        <p>It has become free.</p>
      </div>
      <div className="desk-acts">
        <Act onPress={() => desk.act('grant-ask')} keyName="+">
          Grant
        </Act>
      </div>
    </>
  );
}

function ClearNext({
  source,
  desk,
  next,
}: NextProps & { readonly next: Extract<NextAct, { kind: 'clear' }> }) {
  const { trains } = source.state;
  return (
    <>
      <div className="desk-about">
        <p>
          Ask {trains[next.train]?.name}. {trains[next.waiting]?.name} waits for it.
        </p>
      </div>
      <div className="desk-acts">
        <Act onPress={() => desk.act('clear')} keyName=".">
          Clear
        </Act>
      </div>
    </>
  );
}

/** What + would grant besides, in small letters: nobody has asked for it yet. */
function WayOn({ source, desk }: NextProps) {
  const { plan } = source;
  const [first] = desk.ways;
  if (desk.next.kind === 'planned' || source.state.asks.some(({ free }) => free)) return null;
  const [planned] = desk.planned;
  if (plan != null && planned !== undefined)
    return (
      <p className="desk-then">
        {plan.name}: <PlannedWords source={source} planned={planned} /> <kbd>+</kbd>
      </p>
    );
  if (first === undefined || desk.next.kind === 'onward') return null;
  return (
    <p className="desk-then">
      the way on: <OnwardWords source={source} onward={first} /> <kbd>+</kbd>
    </p>
  );
}

function PlannedNext({ source, desk, planned }: NextProps & { readonly planned: PlannedOrder }) {
  const { plan } = source;
  if (plan == null) return null;
  return (
    <>
      <div className="desk-about">
        <p>{plannedWords(plan, planned, source.seconds)}</p>
        <PlanStray source={source} />
      </div>
      <div className="desk-acts">
        <Act onPress={() => desk.act('grant-ask')} keyName="+">
          Grant
        </Act>
        <Act onPress={() => desk.act('throw-later')} keyName="-">
          Later
        </Act>
        <Act kind="calm" onPress={() => source.doPlan?.('aside')} label="Put the plan aside">
          Plan aside
        </Act>
        <Act kind="calm" onPress={() => source.doPlan?.('again')} label="Plan again from here">
          Plan again
        </Act>
      </div>
    </>
  );
}

/** Trains that have left their way: the plan does not fit any more. */
function PlanStray({ source: { plan } }: Pick<NextProps, 'source'>) {
  const stray = plan == null ? [] : strayWords(plan);
  return stray.length === 0 ? null : <p role="alert">{stray.join(' ')} Plan again from here.</p>;
}

/** What the plan waits for where none of its orders has its turn. */
function PlanWaits({ source }: Pick<NextProps, 'source'>) {
  const { plan } = source;
  if (plan == null) return null;
  return (
    <>
      <p className="desk-then">{planWaits(plan)}</p>
      <PlanStray source={source} />
    </>
  );
}

function OnwardNext({ source, desk }: NextProps) {
  return (
    <>
      <div className="desk-about">
        <p>
          {source.state.alone ? 'The way on' : 'The way on, if its crew asks'}: as before, or straight on.
        </p>
      </div>
      <div className="desk-acts">
        <Act onPress={() => desk.act('grant-ask')} keyName="+">
          Grant
        </Act>
        <Act onPress={() => desk.act('grant-far')} keyName="F11" label="Grant as far as it is free">
          Far
        </Act>
        <Act onPress={() => desk.act('throw-later')} keyName="-">
          Later
        </Act>
      </div>
    </>
  );
}

function NothingNext({ source, desk }: NextProps) {
  return (
    <div className="desk-about">
      <Others source={source} list={desk.pending.slice(0, SHOWN_OTHERS)} />
      <PlanWaits source={source} />
    </div>
  );
}

/** Nobody waits for it: it is not read from across the room. */
const isQuiet = ({ kind }: NextAct): boolean => kind === 'nothing' || kind === 'onward';

export function NextZone({ source, desk }: NextProps) {
  const { next } = desk;
  return (
    <section className="desk-next" data-zone="next" aria-label="Next">
      <p className={isQuiet(next) ? 'quiet desk-now' : 'desk-far desk-now'}>
        {next.kind === 'nothing' ? 'Nothing to throw.' : <NextWords source={source} next={next} />}
        {next.kind === 'onward' ? ' ?' : null}
      </p>
      {next.kind === 'throw' ? <ThrowNext source={source} desk={desk} pending={next.pending} /> : null}
      {next.kind === 'ask' ? <AskNext desk={desk} /> : null}
      {next.kind === 'planned' ? <PlannedNext source={source} desk={desk} planned={next.planned} /> : null}
      {next.kind === 'onward' ? <OnwardNext source={source} desk={desk} /> : null}
      {next.kind === 'clear' ? <ClearNext source={source} desk={desk} next={next} /> : null}
      {next.kind === 'nothing' ? <NothingNext source={source} desk={desk} /> : null}
    </section>
  );
}
