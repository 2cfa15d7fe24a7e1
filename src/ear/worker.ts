import * as runtime from 'onnxruntime-web/wasm';
import { unpacked } from '../offline/fetching';
import { wholeFile } from '../offline/keeping';
import { earWorker } from './earWorker';
import { loadEar, type EarFiles } from './loading';
import type { ToEarWorker } from './messages';
import { startWorker } from './strong/startWorker';

/** Put in by the build: vite.config.ts. */
declare const EAR_FILES: EarFiles;

/** A message to itself comes after all that were sent before it. */
const { port1, port2 } = new MessageChannel();
const breathe = () =>
  new Promise<void>((resolve) => {
    port1.onmessage = () => resolve();
    port2.postMessage(null);
  });

const handle = earWorker({
  tell: (message) => self.postMessage(message),
  startStrong: startWorker,
  wait: (milliseconds, run) => {
    const timer = setTimeout(run, milliseconds);
    return () => clearTimeout(timer);
  },
  breathe,
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
