/** SAY: the exact words to speak, and the key for a right read-back. Stop words are in far letters. */
import { Act } from '../parts/act.tsx';
import type { DeskSource } from './desk-source.ts';
import type { Desk } from './use-desk.ts';

export function SayZone({ source, desk }: { readonly source: DeskSource; readonly desk: Desk }) {
  const { now } = desk.saying;
  // Alone, nobody is spoken to; but the words that stop everything are always shown.
  const words = now === null || (source.state.alone && !now.far) ? '' : `“${now.words}”`;
  const readBack = now?.readBack ?? null;
  const name = readBack === null ? '' : (source.state.trains[readBack.authority.train]?.name ?? '');
  return (
    <section className="desk-say" data-zone="say" aria-label="Say">
      <p className={now?.far === true ? 'desk-far' : undefined}>{words}</p>
      {readBack === null ? null : (
        <Act kind="calm" onPress={() => desk.act('read-back')} keyName="Enter">
          {name} right
        </Act>
      )}
      {readBack === null || !desk.pending.some(({ train }) => train === readBack.authority.train) ? null : (
        <Act kind="calm" onPress={() => desk.act('read-back-and-throws')} keyName="PgDn">
          Right, all thrown
        </Act>
      )}
      <Act kind="calm" onPress={() => desk.act('say-again')} keyName="*">
        Again
      </Act>
    </section>
  );
}
