/** What runs in Node and in Electron's main process: ES modules, whole but for the two packages with native code. */
import { defineConfig } from 'vite';
import { root } from './fit-node.js';
import { hostEntries } from './host-entries.ts';

export default defineConfig({
  root,
  cacheDir: `${root}.cache/vite-host`,
  publicDir: false,
  ssr: { noExternal: true, external: ['electron', 'better-sqlite3'] },
  build: {
    ssr: true,
    outDir: `${root}dist`,
    emptyOutDir: false,
    target: 'node22',
    minify: false,
    rollupOptions: {
      input: hostEntries(),
      output: { format: 'es', entryFileNames: '[name].js', chunkFileNames: 'parts/[name]-[hash].js' },
    },
  },
});
