/** The positions of a dial, in the order in which the knob passes them; each is a throttle, off, or not wired. */
import type { Selector } from '../../../shared-model/railroad/document.ts';
import { movedTo, withThing } from '../../../shared-model/railroad/editing/things.ts';
import { Act } from '../../parts/act.tsx';
import { PickBox } from '../../parts/field.tsx';
import { useDraft } from '../use-drawing.tsx';
import { useChange } from './use-change.ts';

type Position = Selector['positions'][number];
/** How "not wired" is named in the list; no throttle may have an empty id. */
const NOT_WIRED = '';

export function PositionsFields({ selector }: { readonly selector: Selector }) {
  const draft = useDraft();
  const { change } = useChange();
  const { positions } = selector;
  const set = (next: readonly Position[], says: string) =>
    change(
      (before) => withThing(before, 'selectors', selector.id, { positions: [...next] }),
      `${says} of selector ${selector.name}`,
    );
  const options = [
    { value: 'off', says: 'off' },
    ...draft.throttles.map(({ id, name }) => ({ value: String(id), says: `${id} ${name}` })),
    { value: NOT_WIRED, says: 'not wired' },
  ];
  const missing = draft.throttles.find(({ id }) => !positions.includes(id))?.id;
  return (
    <>
      <ol className="wiring-positions">
        {positions.map((position, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a position has no other name than its place
          <li key={index} className="wiring-fields">
            <PickBox
              label={`Position ${index + 1}`}
              value={position ?? NOT_WIRED}
              options={
                options.some(({ value }) => value === (position ?? NOT_WIRED))
                  ? options
                  : [...options, { value: String(position), says: `${position} (gone)` }]
              }
              onChange={(value) =>
                set(
                  positions.with(index, value === NOT_WIRED ? null : (value as Position)),
                  `position ${index + 1}`,
                )
              }
            />
            <Act
              kind="calm"
              label={`Position ${index + 1} one earlier`}
              notNow={index === 0 ? 'it is the first' : undefined}
              onPress={() => set(movedTo(positions, index, index - 1), 'order')}
            >
              Earlier
            </Act>
            <Act
              kind="calm"
              label={`Position ${index + 1} one later`}
              notNow={index === positions.length - 1 ? 'it is the last' : undefined}
              onPress={() => set(movedTo(positions, index, index + 1), 'order')}
            >
              Later
            </Act>
            <Act
              kind="calm"
              label={`Take position ${index + 1} out`}
              notNow={positions.length === 1 ? 'a dial has at least one position' : undefined}
              onPress={() => set(positions.toSpliced(index, 1), 'positions')}
            >
              Out
            </Act>
          </li>
        ))}
      </ol>
      <Act kind="calm" onPress={() => set([...positions, missing ?? null], 'another position')}>
        Another position
      </Act>
    </>
  );
}
