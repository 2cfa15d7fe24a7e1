import * as runtime from 'onnxruntime-web/wasm';
import { earWorker } from './earWorker';
import { fetchEarFile } from './fetching';
import { loadEar, type EarFiles } from './loading';
import type { ToEarWorker } from './messages';

/** Put in by the build: vite.config.ts. */
declare const EAR_FILES: EarFiles;

const handle = earWorker({
  tell: (message) => self.postMessage(message),
  now: () => performance.now() / 1000,
  load: (assetsBase, progress) =>
    loadEar({
      runtime,
      files: EAR_FILES,
      fetchFile: (path, file, arrived) =>
        fetchEarFile(`${assetsBase}ear/${path}`, file, arrived ? { arrived } : {}),
      progress,
    }),
});

self.onmessage = ({ data }: MessageEvent<ToEarWorker>) => handle(data);
