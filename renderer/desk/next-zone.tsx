/** NEXT: the next throw in far letters, the oldest ask that has become free, or the question whether a block is clear. */
import { called } from '../../shared-model/session/rules/sentences.ts';
import { spokenBlock, spokenDestination } from '../../shared-model/session/say.ts';
import type { ActName } from '../keys/acts.ts';
import { Act } from '../parts/act.tsx';
import { Arrow } from '../parts/arrow.tsx';
import type { DeskSource } from './desk-source.ts';
import { waitingReadBack } from './entry-line/word-lines.ts';
import type { NextAct, PendingThrow } from './next-act.ts';

interface NextProps {
  readonly source: DeskSource;
  readonly next: NextAct;
  readonly pending: readonly PendingThrow[];
  readonly onAct: (act: ActName) => void;
}

const position = (to: string | boolean): string => (typeof to === 'boolean' ? (to ? 'on' : 'off') : to);
const short = ({ thrown }: PendingThrow): string => `${thrown.id} ${position(thrown.to)}`;

function ThrowNext({
  source,
  pending,
  next,
  onAct,
}: NextProps & { readonly next: Extract<NextAct, { kind: 'throw' }> }) {
  const { thrown, guard, cab } = next.pending;
  const world = { railroad: source.railroad, state: source.state };
  const others = pending.filter((other) => other !== next.pending).slice(0, 4);
  const waits = thrown.waitsFor.map((thing) => called(world, thing)).join(', ');
  return (
    <>
      <p className="desk-far">
        {thrown.id} <Arrow /> {position(thrown.to)}
      </p>
      <p>
        {guard ? 'Guard beyond the limit. ' : ''}
        {waits === '' ? '' : `Waits for ${waits}. `}
        {thrown.advice ?? ''}
      </p>
      {others.length === 0 ? null : <p className="quiet">then {others.map(short).join(', ')}</p>}
      <div className="desk-acts">
        <Act onPress={() => onAct('throw-done')} keyName="0">
          Done
        </Act>
        <Act onPress={() => onAct('cab-throws-done')} keyName="8">
          All for {cab ?? 'it'}
        </Act>
        <Act onPress={() => onAct('throw-later')} keyName="-">
          Later
        </Act>
      </div>
    </>
  );
}

function Body(props: NextProps) {
  const { source, next, onAct } = props;
  const { railroad, state } = source;
  if (next.kind === 'throw') return <ThrowNext {...props} next={next} />;
  if (next.kind === 'ask')
    return (
      <>
        <p className="desk-far">
          {state.trains[next.ask.train]?.name ?? next.ask.train} <Arrow />{' '}
          {spokenDestination(railroad, next.ask.to)}
        </p>
        <p>is free now</p>
        <div className="desk-acts">
          <Act onPress={() => onAct('grant-ask')} keyName="+">
            Grant
          </Act>
        </div>
      </>
    );
  if (next.kind === 'clear')
    return (
      <>
        <p className="desk-far">clear of {spokenBlock(railroad, next.block)}?</p>
        <p>
          {state.trains[next.train]?.name}: {state.trains[next.waiting]?.name} waits for it.
        </p>
        <div className="desk-acts">
          <Act onPress={() => onAct('clear')} keyName=".">
            Clear
          </Act>
        </div>
      </>
    );
  return (
    <p className="quiet">{state.phase === 'running' ? 'No throw is needed now.' : 'Nothing to throw.'}</p>
  );
}

export function NextZone(props: NextProps) {
  const waiting = waitingReadBack(props.source);
  const train = waiting === undefined ? null : props.source.state.trains[waiting.authority.train];
  return (
    <section className="desk-next" data-zone="next" aria-label="Next">
      <h2 className="unseen">Next</h2>
      {waiting === undefined ? null : (
        <div className="desk-acts">
          <Act onPress={() => props.onAct('read-back')} keyName="Enter">
            {train?.name} read back right
          </Act>
        </div>
      )}
      <Body {...props} />
    </section>
  );
}
