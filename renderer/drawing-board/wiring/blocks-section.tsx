/** The blocks: fed in one act where track is dead, opened by pointing at the track or from the list. */
import { useEffect, useState } from 'react';
import { blockMarks } from '../../../shared-model/railroad/block-marks.ts';
import type { Block } from '../../../shared-model/railroad/document.ts';
import {
  deadEdges,
  type SourceWish,
  withBlockOn,
  withDeadTrackFed,
} from '../../../shared-model/railroad/editing/sources.ts';
import { Act } from '../../parts/act.tsx';
import { useDraft, useDraftAudit, useDraftRailroad, useDrawing, useDrawingStore } from '../use-drawing.tsx';
import { BlockFields } from './block-fields.tsx';
import { Disclosure } from './disclosure.tsx';
import { useChange } from './use-change.ts';

function sourceLine({ source, feeders }: Block): string {
  const fed =
    'selector' in source
      ? `selector ${source.selector}`
      : 'throttle' in source
        ? `straight to ${source.throttle}`
        : `${source.toggle}, behind ${source.from}`;
  const at = feeders.map(({ edge }) => edge).join(', ');
  return `${fed}; ${feeders.length === 0 ? 'no feeder' : `fed at ${at}`}`;
}

/** Dead track: how much of it there is, and the acts that feed all of it, or the piece that is pointed at. */
function DeadTrack({ onNew }: { readonly onNew: (block: string) => void }) {
  const draft = useDraft();
  const railroad = useDraftRailroad();
  const selection = useDrawing((state) => state.selection);
  const { attempt } = useChange();
  const { id } = useDrawingStore();
  const dead = deadEdges(draft);
  const pointed = draft.edges.find(({ id }) => selection.has(id) && !railroad.blockOfEdge.has(id))?.id;
  if (dead.length === 0) return null;
  const feed = (wish: SourceWish) => {
    if (pointed === undefined) return;
    const about = attempt((before) => withBlockOn(before, pointed, wish), `a block on ${pointed}`);
    if (about?.[0] !== undefined) onNew(about[0]);
  };
  const pieces = dead.length === 1 ? '1 piece of track has' : `${dead.length} pieces of track have`;
  return (
    <section className="wiring-dead" aria-label="Track without a feeder">
      <p>{pieces} no feeder.</p>
      {draft.throttles.length === 0 ? (
        <p>
          No throttle is entered yet. Enter the{' '}
          <a href={`#/drawing-board/${id}/wiring/power`}>supplies and throttles</a> first: every new dial has
          a position for each.
        </p>
      ) : null}
      <p className="drawing-board-acts">
        <Act
          kind="calm"
          onPress={() =>
            attempt(
              (before) => withDeadTrackFed(before, 'selector'),
              `blocks with selectors on ${dead.join(', ')}`,
            )
          }
        >
          A block with a selector on each
        </Act>
        <Act
          kind="calm"
          onPress={() =>
            attempt(
              (before) => withDeadTrackFed(before, 'throttle'),
              `blocks straight to a throttle on ${dead.join(', ')}`,
            )
          }
        >
          A block straight to a throttle on each
        </Act>
      </p>
      {pointed === undefined ? (
        <p className="fine quiet">Or point at one of them on the drawing to feed it alone.</p>
      ) : (
        <p className="drawing-board-acts">
          <Act kind="calm" onPress={() => feed({ kind: 'selector' })}>
            {`Feed ${pointed} by a selector`}
          </Act>
          <Act kind="calm" onPress={() => feed({ kind: 'throttle' })}>
            {`Feed ${pointed} straight from a throttle`}
          </Act>
        </p>
      )}
    </section>
  );
}

export function BlocksSection() {
  const store = useDrawingStore();
  const draft = useDraft();
  const railroad = useDraftRailroad();
  const findings = useDraftAudit()?.findings ?? [];
  const selection = useDrawing((state) => state.selection);
  const [open, setOpen] = useState<string | null>(null);
  const [only] = selection.size === 1 ? selection : [];
  const pointed = draft.edges.find(({ id }) => id === only)?.id;
  const pointedBlock = pointed === undefined ? undefined : railroad.blockOfEdge.get(pointed);
  useEffect(() => {
    if (pointedBlock === undefined) return;
    setOpen(pointedBlock);
    document
      .querySelector(`[data-thing="${CSS.escape(pointedBlock)}"]`)
      ?.scrollIntoView({ block: 'nearest' });
  }, [pointedBlock]);
  const marks = blockMarks(draft);
  const toggle = (block: Block) => {
    const opening = open !== block.id;
    setOpen(opening ? block.id : null);
    store.select(opening ? (railroad.edgesOfBlock.get(block.id) ?? []) : []);
  };
  return (
    <>
      <DeadTrack onNew={setOpen} />
      {draft.edges.length === 0 ? (
        <p>
          There is no track yet. Draw it and cut gaps on the Track sheet: what the gaps leave connected is fed
          here.
        </p>
      ) : null}
      <ul className="wiring-list">
        {draft.blocks.map((block) => (
          <Disclosure
            key={block.id}
            id={block.id}
            mark={marks.get(block.id) ?? block.id}
            name={block.name}
            says={sourceLine(block)}
            wrong={findings.some(({ severity, about }) => severity === 'error' && about.includes(block.id))}
            open={open === block.id}
            onToggle={() => toggle(block)}
          >
            <BlockFields block={block} onRenamed={setOpen} />
          </Disclosure>
        ))}
      </ul>
    </>
  );
}
