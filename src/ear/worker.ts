import * as runtime from 'onnxruntime-web/wasm';
import { unpacked } from '../offline/fetching';
import { wholeFile } from '../offline/keeping';
import { breathing } from './breathing';
import { earWorker } from './earWorker';
import { loadEar, type EarFiles } from './loading';
import type { ToEarWorker } from './messages';
import { startWorker } from './strong/startWorker';

/** Put in by the build: vite.config.ts. */
declare const EAR_FILES: EarFiles;

const handle = earWorker({
  tell: (message) => self.postMessage(message),
  startStrong: startWorker,
  wait: (milliseconds, run) => {
    const timer = setTimeout(run, milliseconds);
    return () => clearTimeout(timer);
  },
  breathe: breathing(),
  load: (assetsBase, progress) =>
    loadEar({
      runtime,
      files: EAR_FILES,
      fetchFile: async (path, file, arrived) =>
        unpacked((await wholeFile(assetsBase, `ear/${path}`, file, { arrived })).bytes),
      progress,
    }),
});

self.onmessage = ({ data }: MessageEvent<ToEarWorker>) => handle(data);
