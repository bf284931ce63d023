/** Browser tests: each drives a real Chromium, so one file runs after the other. */
import { defineConfig } from 'vitest/config';
import { root } from './vitest.config.ts';

export default defineConfig({
  root,
  cacheDir: '.cache/vite-screens',
  test: {
    include: ['tests/screens/**/*.test.{ts,tsx}'],
    environment: 'node',
    fileParallelism: false,
    // What is looked for again and again may take as long as what is waited for: a machine that does much else is slow, and not wrong.
    expect: { poll: { timeout: 30_000 } },
    testTimeout: 300_000,
    hookTimeout: 300_000,
    allowOnly: false,
    passWithNoTests: false,
  },
});
