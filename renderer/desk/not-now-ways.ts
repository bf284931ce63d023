/** What makes ready what was not: a line that is begun for the dispatcher, or the word itself. */
import type { ThrottleId, TrainId } from '../../shared-model/ids.ts';
import type { World } from '../../shared-model/session/world.ts';
import { offer, typed } from './offers/offer-group.ts';
import { typedTrain } from './offers/train-offers.ts';
import type { Option } from './option.ts';

/** @param id what the refusal `not-now` is about; absent: the state of the session */
export function notNowWays({ railroad, state }: World, id: string | undefined): readonly Option[] {
  if (id === undefined)
    return state.phase === 'making-up' ? [offer('start the evening', { do: 'start' })] : [];
  const someone = (cab: ThrottleId): readonly Option[] => {
    const number = railroad.document.throttles.findIndex((one) => one.id === cab) + 1;
    return state.cabs[cab]?.person == null ? [typed('somebody has it', `c${number} `)] : [];
  };
  if (state.cabs[id as ThrottleId] !== undefined) return someone(id as ThrottleId);
  const train = state.trains[id as TrainId];
  if (train === undefined) return [];
  const number = typedTrain(id as TrainId, train);
  if (!train.placed) return [typed('say where it stands', `${number} stands in `)];
  if (train.derailed) return [offer('rerailed', { do: 'rerailed', train: id as TrainId })];
  if (train.lost) return [typed('say where it stands', `${number} at `)];
  return train.cab === null ? [typed('give it a cab', `${number} c`)] : someone(train.cab);
}
