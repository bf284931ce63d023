/** Unit, property and proof tests: everything under tests/ that needs no browser. */
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export const root = fileURLToPath(new URL('..', import.meta.url));

export default defineConfig({
  root,
  cacheDir: '.cache/vite-tests',
  resolve: {
    // Electron cannot be imported in Node; the double is typed against the real thing.
    alias: { electron: `${root}tests/desktop/electron-double.ts` },
  },
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/screens/**'],
    environment: 'node',
    // Proofs and property tests explore much on slow machines; a hang is still found.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // A test that is skipped or focused is a failure: nothing is passed over silently.
    allowOnly: false,
    passWithNoTests: false,
    coverage: { provider: 'v8', include: ['shared-model/**', 'electron/**'], reportsDirectory: 'coverage' },
  },
});
