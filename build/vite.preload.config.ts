/** The preload: one CommonJS file that requires only `electron`, as a sandboxed window wants it. */
import { defineConfig } from 'vite';
import { root } from './fit-node.js';

export default defineConfig({
  root,
  cacheDir: `${root}.cache/vite-preload`,
  publicDir: false,
  build: {
    outDir: `${root}dist/desktop`,
    emptyOutDir: false,
    target: 'node22',
    minify: false,
    lib: { entry: `${root}electron/desktop/preload.ts`, formats: ['cjs'], fileName: () => 'preload.cjs' },
    rollupOptions: { external: ['electron'] },
  },
});
