import * as runtime from 'onnxruntime-web/wasm';
import { unpacked } from '../offline/fetching';
import { wholeFile } from '../offline/keeping';
import { earWorker } from './earWorker';
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
      fetchFile: async (path, file, arrived) =>
        unpacked((await wholeFile(assetsBase, `ear/${path}`, file, { arrived })).bytes),
      progress,
    }),
});

self.onmessage = ({ data }: MessageEvent<ToEarWorker>) => handle(data);
