import * as runtime from 'onnxruntime-web/wasm';
import { unpacked } from '../../offline/fetching';
import { wholeFile } from '../../offline/keeping';
import { breathing } from '../breathing';
import { loadStrong, type EarFiles } from '../loading';
import type { ToStrongWorker } from './messages';
import { strongWorker } from './strongWorker';

/** Put in by the build: vite.config.ts. */
declare const EAR_FILES: EarFiles;

const handle = strongWorker({
  tell: (message) => self.postMessage(message),
  now: () => performance.now() / 1000,
  breathe: breathing(),
  load: (assetsBase) =>
    loadStrong({
      runtime,
      files: EAR_FILES,
      fetchFile: async (path, file) =>
        unpacked((await wholeFile(assetsBase, `ear/${path}`, file)).bytes),
    }),
});

self.onmessage = ({ data }: MessageEvent<ToStrongWorker>) => handle(data);
