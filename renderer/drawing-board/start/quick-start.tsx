/** The quick start: a few questions, the railroad that follows from them in sight all the time, and one act that keeps it. */
import { useDeferredValue, useMemo, useState } from 'react';
import { fullAudit } from '../../../shared-model/power/audit.ts';
import type { RailroadDocument } from '../../../shared-model/railroad/document.ts';
import { FIRST_ANSWERS, type QuickAnswers } from '../../../shared-model/railroad/quick-start/answers.ts';
import { firstRailroad } from '../../../shared-model/railroad/quick-start/first-railroad.ts';
import { indexRailroad } from '../../../shared-model/railroad/railroad.ts';
import { Board } from '../../board/board.tsx';
import { restingView } from '../../board/resting-view.ts';
import { Act } from '../../parts/act.tsx';
import { counted } from '../../parts/counted.ts';
import { QuickQuestions } from './quick-questions.tsx';
import { useLibrary } from './use-library.ts';
import './start.css';

/** Stands in the address where else the id of a railroad is. */
export const QUICK_START = 'quick-start';

/** What was drawn, in one line, and what the audit says of it. */
function summary(document: RailroadDocument): string {
  const findings = fullAudit(document);
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  const warnings = findings.filter(({ severity }) => severity === 'warning').length;
  return `${[
    counted(document.blocks.length, 'block'),
    counted(document.selectors.length, 'selector'),
    counted(document.toggles.length, 'toggle'),
    counted(document.nodes.filter(({ kind }) => kind === 'turnout').length, 'turnout'),
  ].join(', ')}. The audit finds ${counted(errors, 'error')} and ${counted(warnings, 'warning')}.`;
}

export function QuickStart() {
  const { problem, begin } = useLibrary();
  const [answers, setAnswers] = useState<QuickAnswers>(FIRST_ANSWERS);
  const shown = useDeferredValue(answers);
  const document = useMemo(() => firstRailroad(shown), [shown]);
  const railroad = useMemo(() => indexRailroad(document), [document]);
  const view = useMemo(() => restingView(railroad), [railroad]);
  return (
    <div className="quick-start">
      <div className="quick-start-board">
        <Board railroad={railroad} view={view} label="The first railroad" />
      </div>
      <section className="quick-start-sheet" aria-labelledby="quick-start-head">
        <h2 id="quick-start-head">Quick start</h2>
        <p>
          Answer as your railroad is. Lengths, names and wire are put right afterwards; nothing here has to be
          exact.
        </p>
        <p role="status">{summary(document)}</p>
        <p className="drawing-board-acts">
          <Act
            kind="calm"
            onPress={() => {
              const drawn = firstRailroad(answers);
              void begin(drawn.name, drawn);
            }}
          >
            Draw it
          </Act>
          <a href="#/drawing-board">Not now</a>
        </p>
        {problem === null ? null : <p role="alert">{problem}</p>}
        <QuickQuestions answers={answers} onChange={(part) => setAnswers((now) => ({ ...now, ...part }))} />
      </section>
    </div>
  );
}
