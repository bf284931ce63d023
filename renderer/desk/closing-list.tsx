/** What is left to do when everybody goes home. */
import { useState } from 'react';
import type { SelectorId } from '../../shared-model/ids.ts';
import type { SelectorNow } from '../../shared-model/session/state.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import type { DeskSource } from './desk-source.ts';
import { guestsOf, keepGuest } from './guests.ts';

/** The trains that came for tonight only may stay in the railroad's document. */
function Guests({ source }: { readonly source: DeskSource }) {
  const { connection } = useConsoleStore();
  const [says, setSays] = useState('');
  const guests = guestsOf(source.state);
  if (source.kind !== 'live' || guests.length === 0) return null;
  return (
    <div className="desk-acts">
      {guests.map((guest) => (
        <Act
          key={guest.id}
          kind="calm"
          onPress={() => void keepGuest(connection, source.railroad.document.name, guest).then(setSays)}
        >
          Keep {guest.name} in the railroad
        </Act>
      ))}
      <span role="status">{says}</span>
    </div>
  );
}

export function ClosingList({ source }: { readonly source: DeskSource }) {
  const { railroad, state } = source;
  const live = (Object.entries(state.selectors) as [SelectorId, SelectorNow][]).filter(
    ([, { position }]) => position !== 'off',
  );
  const { masterSwitch } = railroad.document;
  return (
    <section className="desk-next" data-zone="next" aria-label="Next: before you go">
      <h2>Before you go</h2>
      <ol className="desk-about">
        <li>All handles to zero.</li>
        <li>
          {live.length === 0
            ? 'All selectors are off.'
            : `Selectors to off: ${live.map(([id]) => id).join(', ')}.`}
        </li>
        <li>Master switch off{masterSwitch === undefined ? '' : `: ${masterSwitch}`}.</li>
        <li>
          {state.tags.length === 0
            ? 'Nothing is out of service.'
            : `Out of service, also next time: ${state.tags.map(({ thing, why }) => `${thing} (${why})`).join(', ')}.`}
        </li>
        <li>
          Anything to remember is a note. The evening is in the <a href="#/logbook">Logbook</a>.
        </li>
      </ol>
      <Guests source={source} />
    </section>
  );
}
