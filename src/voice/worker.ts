import { unpacked, type BuiltFile } from '../offline/fetching';
import { wholeFile } from '../offline/keeping';
import { fliteOf, type Flite } from './flite';
import type { LineMade, LineWanted } from './messages';

/** The synthesiser, packed, as it was when the page was built; put in by vite.config.ts. */
declare const VOICE_FILE: BuiltFile;

let loading: Promise<Flite> | undefined;

const load = async (assetsBase: string): Promise<Flite> => {
  const { bytes } = await wholeFile(assetsBase, 'voice/flite.wasm.gz', VOICE_FILE);
  return fliteOf(await WebAssembly.compile(await unpacked(bytes)));
};

const make = async ({ id, assetsBase, text, voice }: LineWanted): Promise<LineMade> => {
  try {
    loading ??= load(assetsBase);
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
