/** The railroads of this console, and what to begin a new one with. */
import { exampleRailroads } from '../../../shared-model/demo/railroad.ts';
import { blankSheet } from '../../../shared-model/railroad/editing/draft.ts';
import { Act } from '../../parts/act.tsx';
import { ImportFiles } from './import-files.tsx';
import { QUICK_START } from './quick-start.tsx';
import { RailroadRow } from './railroad-row.tsx';
import { useLibrary } from './use-library.ts';
import './start.css';

export function Library() {
  const { cards, problem, tell, begin } = useLibrary();
  const blank = () => {
    const document = blankSheet('New railroad');
    void begin(document.name, document);
  };
  return (
    <ImportFiles onKeep={(name, document) => void begin(name.slice(0, 120), document)}>
      {problem === null ? null : <p role="alert">{problem}</p>}
      <section aria-labelledby="start-railroads">
        <h2 id="start-railroads">Railroads</h2>
        {cards?.length === 0 ? <p>There is none yet: begin one below.</p> : null}
        <ul className="start-cards">
          {cards?.map((card) => (
            <RailroadRow key={card.id} card={card} tell={tell} />
          ))}
        </ul>
      </section>
      <section aria-labelledby="start-new">
        <h2 id="start-new">Begin a new one</h2>
        <ul className="start-cards">
          <li className="start-card">
            <a className="act" data-kind="calm" href={`#/drawing-board/${QUICK_START}`}>
              Quick start
            </a>
            <span className="quiet">A few questions, and a first railroad is drawn from the answers.</span>
          </li>
          <li className="start-card">
            <Act kind="calm" onPress={blank}>
              Blank sheet
            </Act>
            <span className="quiet">Draw the track yourself, from the first edge on.</span>
          </li>
          {exampleRailroads.map(({ id, says, document }) => (
            <li key={id} className="start-card">
              <Act kind="calm" onPress={() => void begin(document.name, document)}>
                {`A copy of ${document.name}`}
              </Act>
              <span className="quiet">{says}</span>
            </li>
          ))}
        </ul>
      </section>
    </ImportFiles>
  );
}
