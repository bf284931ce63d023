/** Draws the arrows of the house, from the same data that the check uses. */
import { ELECTRON_ARROWS, MODEL_LAYERS, ROOM_ARROWS } from './layer-rules.ts';

const arrows = (names: readonly string[], to: string): string[] =>
  names.map((name) => `    ${name} --> ${to}`);

function modelArrows(): string[] {
  return MODEL_LAYERS.slice(1).flatMap((level, index) =>
    (MODEL_LAYERS[index] ?? []).flatMap((below) => arrows(level, below)),
  );
}

const electronArrows = (): string[] =>
  Object.entries(ELECTRON_ARROWS).flatMap(([part, mayUse]) =>
    mayUse.map((other) => `    ${part} --> ${other}`),
  );

const roomArrows = (): string[] =>
  Object.entries(ROOM_ARROWS).flatMap(([room, mayUse]) => mayUse.map((other) => `  ${room} --> ${other}`));

/** `docs/rooms.md`, whole. */
export function drawRooms(): string {
  return [
    '# The rooms and who may look at whom',
    '',
    'Written by `npm run diagram` from `build/layer-rules.ts`; `npm run check` fails when it is stale, and when an import goes against an arrow.',
    'A layer may look at every layer that its arrows reach. Tests and build may look at anything; nothing looks at them.',
    '',
    '```mermaid',
    'flowchart BT',
    '  subgraph shared-model',
    ...modelArrows(),
    '  end',
    '  subgraph electron',
    ...electronArrows(),
    '  end',
    '  renderer[renderer]',
    ...roomArrows(),
    '```',
    '',
  ].join('\n');
}
