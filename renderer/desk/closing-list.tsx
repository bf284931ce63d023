/** What is left to do when everybody goes home. */
import type { SelectorId } from '../../shared-model/ids.ts';
import type { SelectorNow } from '../../shared-model/session/state.ts';
import type { DeskSource } from './desk-source.ts';

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
    </section>
  );
}
