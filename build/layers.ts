/** `npm run layers`: fails on a wrong arrow, a circle, or a clock or chance in shared-model. */
import { root } from './fit-node.js';
import { impureWords } from './impure-words.ts';
import { LAYER_RULES } from './layer-rules.ts';
import { filesBelow } from './sources.ts';
import { wrongArrows } from './wrong-arrows.ts';

const arrows = (await wrongArrows(root, LAYER_RULES)).map(({ rule, from, to, round }) =>
  round.length > 0 ? `${rule}: ${[from, ...round].join(' → ')}` : `${rule}: ${from} → ${to}`,
);
const words = filesBelow('shared-model')
  .filter((file) => file.endsWith('.ts'))
  .flatMap((file) => impureWords(root + file))
  .map(({ file, line, word }) => `impure: ${file.slice(root.length)}:${line} ${word}`);

const wrong = [...arrows, ...words];
for (const line of wrong) console.error(line);
console.log(wrong.length === 0 ? 'Layers: every arrow is right.' : `Layers: ${wrong.length} wrong.`);
process.exitCode = wrong.length === 0 ? 0 : 1;
