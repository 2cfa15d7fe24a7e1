import * as runtime from 'onnxruntime-web/wasm';
import wasmAddress from 'onnxruntime-web/ort-wasm-simd-threaded.wasm?url';
import { createDetector } from './detecting';
import { earWorker, ModelMissingError } from './earWorker';
import type { ToEarWorker } from './messages';
import { strongReader } from './phoneReader';
import { createRecogniser } from './recognising';

/** All four together, for the progress shown; a wrong sum only makes the bar jump. */
const ALL_BYTES = 28_600_000;

const handle = earWorker({
  tell: (message) => self.postMessage(message),
  load: async (assetsBase, progress) => {
    let arrived = 0;
    const fetched = (address: string) =>
      read(address, (bytes) => {
        arrived += bytes;
        progress(Math.min(1, arrived / ALL_BYTES));
      });
    const [encoder, head, vad, wasm] = await Promise.all([
      fetched(`${assetsBase}ear/encoder.onnx`),
      fetched(`${assetsBase}ear/phone-head.onnx`),
      fetched(`${assetsBase}ear/vad.onnx`),
      fetched(wasmAddress),
    ]);
    runtime.env.wasm.wasmBinary = wasm;
    const recogniser = createRecogniser(await strongReader(runtime, { encoder, head }));
    return { recogniser, detector: await createDetector(runtime, vad) };
  },
});

self.onmessage = ({ data }: MessageEvent<ToEarWorker>) => handle(data);

async function read(address: string, arrived: (bytes: number) => void): Promise<Uint8Array> {
  const answer = await fetch(address).catch((problem: unknown) => {
    throw new ModelMissingError(`${address}: ${String(problem)}`);
  });
  const kind = answer.headers.get('content-type') ?? '';
  // A server that answers every address with its page is a missing model too.
  if (!answer.ok || answer.body === null || kind.includes('html'))
    throw new ModelMissingError(`${address}: answered ${answer.status} ${kind}`);
  const pieces: Uint8Array[] = [];
  const reader = answer.body.getReader();
  for (let piece = await reader.read(); !piece.done; piece = await reader.read()) {
    pieces.push(piece.value);
    arrived(piece.value.length);
  }
  const whole = new Uint8Array(pieces.reduce((length, piece) => length + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
