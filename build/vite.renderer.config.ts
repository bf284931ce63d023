/** The screens: one page with relative addresses, served by Electron's app protocol or by the web host. */
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { root } from './fit-node.js';

export default defineConfig({
  root: `${root}renderer`,
  base: './',
  cacheDir: `${root}.cache/vite-renderer`,
  publicDir: false,
  plugins: [react()],
  build: {
    outDir: `${root}dist/renderer`,
    emptyOutDir: true,
    target: 'es2023',
    // The content security policy allows data: for images alone, so fonts stay files.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
});
