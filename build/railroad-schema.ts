/** The published schema of a railroad file, made from the one that parses it. */
import { railroadDocument } from '../shared-model/railroad/document.ts';
import { z } from '../shared-model/zod.ts';

/**
 * `docs/railroad.schema.json`, whole.
 *
 * JSON Schema cannot say that every id is used once in the document, nor that an edge has two different ends; the parser says so.
 */
export function makeRailroadSchema(): string {
  const { $schema, ...rest } = z.toJSONSchema(railroadDocument, { io: 'input', target: 'draft-2020-12' });
  const schema = {
    $schema,
    title: 'Cabward railroad, format cabward-railroad/1',
    description:
      'Written by `npm run diagram` from shared-model/railroad/document.ts. Lengths are millimetres, currents amperes, volts RMS. Besides what is said here, every id is used once in a document, whatever it names, and an edge lies between two different nodes.',
    ...rest,
  };
  return `${JSON.stringify(schema, null, 2)}\n`;
}
