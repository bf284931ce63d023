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
    testTimeout: 300_000,
    hookTimeout: 300_000,
    allowOnly: false,
    passWithNoTests: false,
  },
});
