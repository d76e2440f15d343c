import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const api = process.env.API ?? 'http://127.0.0.1:3000';

export default defineConfig({
  plugins: [react()],
  // Nothing inline: the page runs under a content security policy that allows only its own files.
  build: { target: 'es2022', assetsInlineLimit: 0, modulePreload: { polyfill: false }, emptyOutDir: true },
  server: { proxy: { '/graphql': { target: api, ws: true } } },
});
