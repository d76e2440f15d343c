import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { ownQuestions } from './own-questions.js';

const api = process.env.API ?? 'http://127.0.0.1:3000';

export default defineConfig({
  plugins: [ownQuestions(), react()],
  // Nothing inline: the page runs under a content security policy that allows only its own files.
  // One sheet for all pages, since they share its words; scripts come page by page.
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    cssCodeSplit: false,
    // For public/sw.js, which keeps them all.
    manifest: 'files.json',
    modulePreload: { polyfill: false },
    emptyOutDir: true,
  },
  server: { proxy: { '/graphql': { target: api, ws: true } } },
});
