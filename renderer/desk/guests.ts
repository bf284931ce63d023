/** Trains that came for tonight only, offered to the railroad's document when the evening is over. */
import type { TrainId } from '../../shared-model/ids.ts';
import type { RailroadDocument, Train } from '../../shared-model/railroad/document.ts';
import { parseRailroadText } from '../../shared-model/railroad/parse-railroad.ts';
import type { SessionState, TrainNow } from '../../shared-model/session/state.ts';
import type { ConsoleConnection } from '../connection/console-connection.ts';

/** The guests of an evening as trains of a document, as they were when it ended. */
export function guestsOf({ trains }: SessionState): readonly Train[] {
  return (Object.entries(trains) as [TrainId, TrainNow][])
    .filter(([, { tonight }]) => tonight)
    .map(([id, { name, length, amps }]) => ({ id, name, length, amps }));
}

/** A document with a guest's train among its own; unchanged if it has that train already. */
export const withGuest = (document: RailroadDocument, guest: Train): RailroadDocument =>
  document.trains.some(({ id }) => id === guest.id)
    ? document
    : { ...document, trains: [...document.trains, guest] };

/**
 * Puts a guest's train into the draft of the railroad; where there was none, publishes it at once.
 *
 * @param name of the railroad that the evening ran on
 * @returns what was done, or why it could not be, in words
 */
export async function keepGuest(connection: ConsoleConnection, name: string, guest: Train): Promise<string> {
  const cards = await connection.call('railroads.list', {});
  if (!cards.ok) return cards.problem.says;
  const card = cards.value.find((one) => one.name === name);
  if (card === undefined) return `${name} is not in the library any more.`;
  const { id, hasDraft } = card;
  const read = await connection.call('railroads.read', { id });
  if (!read.ok) return read.problem.says;
  const parsed = parseRailroadText(JSON.stringify(read.value.document));
  if (!parsed.ok) return `The draft of ${name} is not whole yet: finish it on the Drawing board first.`;
  const saved = await connection.call('railroads.saveDraft', {
    id,
    name,
    document: withGuest(parsed.document, guest),
  });
  if (!saved.ok) return saved.problem.says;
  if (hasDraft) return `${guest.name} is in the draft of ${name}, with what else is in it.`;
  const published = await connection.call('railroads.publish', { id, note: `${guest.name} stays` });
  return published.ok ? `${guest.name} belongs to ${name} from now on.` : published.problem.says;
}
