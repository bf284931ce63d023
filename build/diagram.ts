/** `npm run diagram`: writes the generated files of docs/. With `--check` it writes nothing and fails if one is stale. */
import { staleFiles, writeGenerated } from './generated.ts';

if (process.argv.includes('--check')) {
  const stale = staleFiles();
  console.log(
    stale.length === 0 ? 'Generated files: fresh.' : `Stale: ${stale.join(', ')}; run \`npm run diagram\`.`,
  );
  process.exitCode = stale.length === 0 ? 0 : 1;
} else {
  console.log(`Written: ${writeGenerated().join(', ')}.`);
}
