/** The files in docs/ that are written by a program: what writes each, and whether it is fresh. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { root } from './fit-node.js';
import { drawMachines } from './machine-drawing.ts';
import { makeRailroadSchema } from './railroad-schema.ts';
import { drawRooms } from './rooms-drawing.ts';

const GENERATED: Readonly<Record<string, () => string>> = {
  'docs/machines.md': drawMachines,
  'docs/railroad.schema.json': makeRailroadSchema,
  'docs/rooms.md': drawRooms,
};

/** The generated files whose text is not what would be written now. */
export function staleFiles(): string[] {
  return Object.entries(GENERATED)
    .filter(([file, make]) => !existsSync(root + file) || readFileSync(root + file, 'utf8') !== make())
    .map(([file]) => file);
}

/** Writes every generated file. @returns their names */
export function writeGenerated(): string[] {
  for (const [file, make] of Object.entries(GENERATED)) writeFileSync(root + file, make());
  return Object.keys(GENERATED);
}
