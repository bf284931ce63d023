/** What is done with an evening as a whole: print it, save it in one form or another, delete it. */
import { useState } from 'react';
import { tablesCsv } from '../../shared-model/logbook/csv.ts';
import type { ReportTable } from '../../shared-model/logbook/report-types.ts';
import type { EveningCard } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { TextBox } from '../parts/field.tsx';
import { fileName, saveFile } from '../parts/save-file.ts';
import { eveningAsFile } from './carry-evening.ts';
import { useCarrying } from './use-carrying.ts';
import type { EveningReport } from './use-report.ts';

interface ActsProps {
  readonly card: EveningCard;
  /** Null while it is not worked out. */
  readonly made: { readonly report: EveningReport; readonly tables: readonly ReportTable[] } | null;
  /** Shows the sheet, which is what is printed. */
  readonly printsHere: boolean;
}

const NOT_YET = 'Open the sheet or the figures first: they are worked out then.';

function Removing({ card, onClose }: { readonly card: EveningCard; readonly onClose: () => void }) {
  const { connection } = useConsoleStore();
  const [typed, setTyped] = useState('');
  const [says, setSays] = useState<string | null>(null);
  const remove = async () => {
    const answer = await connection.call('evenings.remove', { id: card.id, confirm: typed });
    if (answer.ok) window.location.hash = '#/logbook';
    else setSays(answer.problem.says);
  };
  return (
    <Dialog title={`Delete ${card.name} for good?`} onClose={onClose}>
      <p>
        Its {card.entries} entries are removed from the log and cannot be brought back, except from a backup
        or a saved file. The other evenings stay as they are. To delete it, type its name.
      </p>
      <TextBox label={`The name: ${card.name}`} value={typed} onChange={setTyped} />
      {says === null ? null : <p role="alert">{says}</p>}
      <div className="logbook-acts">
        <Act
          kind="calm"
          onPress={() => void remove()}
          notNow={typed === card.name ? undefined : 'Type the name as it stands above.'}
        >
          Delete for good
        </Act>
        <Act kind="calm" onPress={onClose}>
          Leave it
        </Act>
      </div>
    </Dialog>
  );
}

export function EveningActs({ card, made, printsHere }: ActsProps) {
  const { connection } = useConsoleStore();
  const [removing, setRemoving] = useState(false);
  const [says, setSays] = useState<string | null>(null);
  const carrying = useCarrying(setSays);
  const exportEvening = async () => {
    const answer = await carrying.follow((follower) => eveningAsFile(connection, card, follower));
    if (answer === null) return setSays('It was given up.');
    if (answer.ok) saveFile(answer.value.name, answer.value.file);
    setSays(answer.ok ? `Saved as ${answer.value.name}.` : answer.problem.says);
  };
  const saveCsv = () => {
    if (made !== null) saveFile(fileName(card.name, 'csv'), tablesCsv(made.tables), 'text/csv');
  };
  const saveJson = () => {
    if (made === null) return;
    const { sheet, figures } = made.report;
    const text = JSON.stringify({ session: card, sheet, figures }, null, 2);
    saveFile(fileName(card.name, 'json'), text, 'application/json');
  };
  const notYet = made === null ? NOT_YET : undefined;
  return (
    <div className="evening-acts">
      <div className="logbook-acts">
        <Act
          kind="calm"
          onPress={() => window.print()}
          notNow={printsHere ? notYet : 'Open the train sheet first: it is what is printed.'}
        >
          Print the sheet
        </Act>
        <Act kind="calm" onPress={saveCsv} notNow={notYet} label="Save sheet and figures as CSV">
          CSV
        </Act>
        <Act kind="calm" onPress={saveJson} notNow={notYet} label="Save sheet and figures as JSON">
          JSON
        </Act>
        <Act kind="calm" onPress={() => void exportEvening()}>
          Save the whole evening as a file
        </Act>
        <Act
          kind="calm"
          onPress={() => setRemoving(true)}
          notNow={card.endedAt === null ? 'It is going on: end it first.' : undefined}
        >
          Delete …
        </Act>
      </div>
      {says === null ? null : <p role="status">{says}</p>}
      {carrying.giveUp === null ? null : (
        <Act kind="calm" onPress={carrying.giveUp}>
          Give it up
        </Act>
      )}
      {removing ? <Removing card={card} onClose={() => setRemoving(false)} /> : null}
    </div>
  );
}
