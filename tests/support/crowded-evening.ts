/** The fullest moment of an evening: six cabs, twenty dials, the longest words, a danger alarm, a disputed block; made by the engine's own orders. */
import { clubDocument } from '../renderer/support/club-railroad.ts';

/** The club's railroad with dials to spare and names as long as they come. */
export function crowdedDocument() {
  const club = clubDocument();
  const spare = ['K15', 'K16', 'K17', 'K18', 'K19', 'K20'].map((id, index) => ({
    id,
    name: id.slice(1),
    positions: ['off', '1', '2', '3'],
    stops: true,
    contactAmps: 8,
    at: [index, 1],
  }));
  return {
    ...club,
    name: 'Fenwold and Upper Marsh Terminal Railway',
    selectors: [...club.selectors.map((dial, index) => ({ ...dial, at: [index, 0] })), ...spare],
    trains: club.trains.map((train, index) =>
      index < 2 ? train : { ...train, name: `Fenwold freight ${1200 + index}` },
    ),
  };
}

const CREW = ['Bartholomew', 'Wilhelmina', 'Christopher', 'Anneliese', 'Maximilian', 'Theodora'];

/** What is said until then; the last two are refused and an alarm. */
export const CROWDED_INPUTS: readonly (readonly object[])[] = [
  CREW.map((person, index) => ({ do: 'assign-cab', cab: String(index + 1), person })),
  [
    { do: 'place-train', train: 't7', edge: 'o1', toward: 'gO1', cab: '1' },
    { do: 'place-train', train: 't12', edge: 'i1c', toward: 'gI1', cab: '2' },
    { do: 'place-train', train: 't40', edge: 'o3c', toward: 'gO3', cab: '4' },
    { do: 'place-train', train: 't31', edge: 's2', toward: 'gS1', cab: '5' },
    { do: 'place-train', train: 't55', edge: 'y7', toward: 'gY1', cab: '6' },
    { do: 'turn-selector', selector: 'K3', position: '4' },
    { do: 'turn-selector', selector: 'K5', position: '2' },
  ],
  [{ do: 'start' }, { do: 'set-clock', ratio: 12, minutes: 1322 }],
  [{ do: 'request-move', train: 't7', to: 'B2' }],
  [{ do: 'acknowledge', authority: 'a1' }],
  [{ do: 'request-move', train: 't12', to: 'B7' }],
  [{ do: 'tag', thing: 'K12', why: 'does not work', by: 'Theodora' }],
  [{ do: 'call', cab: '3' }],
  [{ do: 'train-entered', train: 't40', block: 'B4' }],
  [{ do: 'train-entered', train: 't55', block: 'B8' }],
];
