/** Before another plan is made of the present, what was made real is kept under a name: it can be held against what happened, too. */
import type { Connection } from '../../shared-model/wire/contract.ts';
import { type KeptRehearsal, newName, REHEARSALS } from './kept-rehearsal.ts';

/** @param keptAs the name under which it is kept already; another one's name is not taken */
export async function keepMadeReal(
  connection: Connection,
  rehearsal: KeptRehearsal,
  keptAs: string | null,
): Promise<void> {
  if (rehearsal.madeReal === null) return;
  const rows = await connection.call('keep.list', { kind: REHEARSALS });
  const taken = rows.ok ? rows.value.map(({ id }) => id) : [];
  const { name } = rehearsal;
  const value = name === keptAs || !taken.includes(name) ? rehearsal : { ...rehearsal, name: newName(taken) };
  await connection.call('keep.write', { kind: REHEARSALS, id: value.name, value });
}
