import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { saysoCues } from './src/cues/plugin';
import { copyEarAssets, earFiles } from './src/ear/assets.mjs';
import { lexiconFor } from './src/ear/lexicon';
import { saysoOffline } from './src/offline/plugin';
import { POLICY } from './src/serving/policy.mjs';
import { copyVoiceAssets, voiceFile } from './src/voice/assets.mjs';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The runtime comes packed, from ear/ort: the copy that its package names itself is left out. */
const onePackedRuntime: Plugin = {
  name: 'one-packed-runtime',
  enforce: 'post',
  generateBundle(_, bundle) {
    for (const name of Object.keys(bundle))
      if (/ort-wasm-simd-threaded.*\.wasm$/.test(name)) Reflect.deleteProperty(bundle, name);
  },
};

/** In the page itself, since a host of static files may send no headers. */
const policyInPage: Plugin = {
  name: 'policy-in-page',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
      injectTo: 'head-prepend',
    },
  ],
};

/** Relative addresses, so that any folder of any HTTPS host can serve the built page. */
export default defineConfig(async () => {
  const publicDir = here('public');
  await Promise.all([copyEarAssets(publicDir), copyVoiceAssets(publicDir)]);
  return {
    base: './',
    define: {
      EAR_FILES: JSON.stringify(await earFiles(publicDir)),
      VOICE_FILE: JSON.stringify(await voiceFile(publicDir)),
    },
    plugins: [
      react(),
      saysoCues({ root: here('.'), language: 'en', lexiconFor }),
      onePackedRuntime,
      policyInPage,
      saysoOffline(here('src/offline/serviceWorker.ts')),
    ],
    worker: { format: 'es' as const },
    // Browsers that run the recogniser: module workers, audio worklets, WebAssembly SIMD.
    build: {
      target: 'es2023',
      chunkSizeWarningLimit: 2000,
      rolldownOptions: {
        // The page's own cues come beside the first script, and stay in the cache when it changes.
        output: { codeSplitting: { groups: [{ name: 'cues', test: /^\0virtual:sayso-cues$/ }] } },
      },
    },
  };
});
