import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { saysoCues } from './src/cues/plugin';
import { copyEarAssets } from './src/ear/assets.mjs';
import { lexiconFor } from './src/ear/lexicon';
import { copyVoiceAssets } from './src/voice/assets.mjs';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Relative addresses, so that any folder of any HTTPS host can serve the built page. */
export default defineConfig(async () => {
  const publicDir = here('public');
  await Promise.all([copyEarAssets(publicDir), copyVoiceAssets(publicDir)]);
  return {
    base: './',
    plugins: [react(), saysoCues({ root: here('.'), language: 'en', lexiconFor })],
    worker: { format: 'es' as const },
    // Browsers that run the recogniser: module workers, audio worklets, WebAssembly SIMD.
    build: { target: 'es2023', chunkSizeWarningLimit: 2000 },
  };
});
