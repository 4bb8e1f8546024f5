import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

// While developing, requests go on to a desk that already runs: `quoin desk`, or `npm run mock`.
const desk = process.env.QUOIN_DESK_AT ?? 'http://127.0.0.1:8077';

export default defineConfig({
  plugins: [svelte()],
  server: { host: '127.0.0.1', proxy: { '/api': desk } },
  build: {
    target: 'es2022',
    // The desk's rules allow no data: addresses for fonts and scripts.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // three.js is the one large part, and has a file of its own.
    chunkSizeWarningLimit: 700,
  },
});
