import { fliteOf, type Flite } from './flite';
import type { LineMade, LineWanted } from './messages';

let loading: Promise<Flite> | undefined;

const load = async (wasm: string): Promise<Flite> => {
  const response = await fetch(wasm);
  if (!response.ok) {
    throw new Error(`The voice file ${wasm} is missing (${String(response.status)}).`);
  }
  return fliteOf(await WebAssembly.compile(await response.arrayBuffer()));
};

const make = async ({ id, wasm, text, voice }: LineWanted): Promise<LineMade> => {
  try {
    loading ??= load(wasm);
    return { id, sound: (await loading).synthesize(text, voice) };
  } catch (error) {
    return { id, error: error instanceof Error ? error.message : String(error) };
  }
};

self.onmessage = async ({ data }: MessageEvent<LineWanted>) => {
  const made = await make(data);
  const transfer = 'sound' in made ? [made.sound.samples.buffer] : [];
  self.postMessage(made, { transfer });
};
