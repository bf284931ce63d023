/** One railroad of the library: opened, exported, its versions looked at and gone back to, removed. */
import { useState } from 'react';
import type { RailroadCard, ReplyOf } from '../../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { Dialog } from '../../parts/dialog.tsx';
import { saveRailroad } from './save-file.ts';

interface RowProps {
  readonly card: RailroadCard;
  /** Says why something was not done. */
  readonly tell: (problem: string | null) => void;
}

function Versions({ card, tell }: RowProps) {
  const { connection } = useConsoleStore();
  const [versions, setVersions] = useState<ReplyOf<'railroads.versions'> | null>(null);
  const [open, setOpen] = useState(false);
  const show = async () => {
    setOpen(!open);
    const answer = await connection.call('railroads.versions', { id: card.id });
    if (answer.ok) setVersions(answer.value);
    else tell(answer.problem.says);
  };
  const read = async (version: number) => {
    const answer = await connection.call('railroads.read', { id: card.id, version });
    if (!answer.ok) tell(answer.problem.says);
    return answer.ok ? answer.value.document : undefined;
  };
  const goBack = async (version: number) => {
    const document = await read(version);
    if (document === undefined) return;
    const answer = await connection.call('railroads.saveDraft', { id: card.id, name: card.name, document });
    tell(answer.ok ? null : answer.problem.says);
  };
  const save = async (version: number) => {
    const document = await read(version);
    if (document !== undefined) saveRailroad(`${card.name} version ${version}`, document);
  };
  return (
    <>
      <Act kind="calm" onPress={() => void show()} expanded={open} label={`Versions of ${card.name}`}>
        Versions
      </Act>
      {open && versions !== null ? (
        <ul className="start-versions" aria-label={`Versions of ${card.name}`}>
          {versions.map(({ version, note, at }) => (
            <li key={version}>
              <span>
                {version} <span className="quiet">{new Date(at).toLocaleString()}</span>{' '}
                {note === '' ? 'without a note' : note}
              </span>
              <Act
                kind="calm"
                onPress={() => void goBack(version)}
                label={`Go back to version ${version} of ${card.name} as a draft`}
              >
                Go back to it as a draft
              </Act>
              <Act
                kind="calm"
                onPress={() => void save(version)}
                label={`Export version ${version} of ${card.name}`}
              >
                Export
              </Act>
            </li>
          ))}
        </ul>
      ) : null}
    </>
  );
}

export function RailroadRow({ card, tell }: RowProps) {
  const { connection } = useConsoleStore();
  const [removing, setRemoving] = useState(false);
  const exportIt = async () => {
    const answer = await connection.call('railroads.read', { id: card.id });
    if (answer.ok) saveRailroad(card.name, answer.value.document);
    else tell(answer.problem.says);
  };
  const discard = async () => {
    const answer = await connection.call('railroads.discardDraft', { id: card.id });
    tell(answer.ok ? null : answer.problem.says);
  };
  const remove = async () => {
    setRemoving(false);
    const answer = await connection.call('railroads.remove', { id: card.id });
    tell(answer.ok ? null : answer.problem.says);
  };
  return (
    <li className="start-card">
      <a href={`#/drawing-board/${card.id}`}>{card.name}</a>
      <span className="quiet">
        {card.version === 0 ? 'not published' : `version ${card.version}`}
        {card.hasDraft ? ', with a draft' : ''}
      </span>
      <span className="drawing-board-acts">
        <Act kind="calm" onPress={() => void exportIt()} label={`Export ${card.name}`}>
          Export
        </Act>
        {card.version > 0 ? <Versions card={card} tell={tell} /> : null}
        {card.hasDraft && card.version > 0 ? (
          <Act kind="calm" onPress={() => void discard()} label={`Throw the draft of ${card.name} away`}>
            Throw the draft away
          </Act>
        ) : null}
        <Act
          kind="calm"
          onPress={() => setRemoving(!removing)}
          expanded={removing}
          label={`Remove ${card.name} from this console`}
        >
          Remove…
        </Act>
      </span>
      {removing ? (
        <Dialog title={`Remove ${card.name}?`} onClose={() => setRemoving(false)}>
          <p>
            It is gone from the list, with its draft and versions. Evenings that ran on it keep the railroad
            as it was. Export it first if you are not sure.
          </p>
          <p className="drawing-board-acts">
            <Act kind="calm" onPress={() => void remove()}>
              Remove it
            </Act>
            <Act kind="calm" onPress={() => setRemoving(false)}>
              Keep it
            </Act>
          </p>
        </Dialog>
      ) : null}
    </li>
  );
}
