import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { EAR_ASSETS, installedPath } from './assets.mjs';
import { createRecogniser, type Recogniser } from './recognising';
import { resampled } from './resampling';
import { EarFileError, soundOf } from './wav';

export { EarFileError } from './wav';

const head = fileURLToPath(new URL('../../public/ear/phone-head.onnx', import.meta.url));

const installed = (name: string) => {
  const asset = EAR_ASSETS.find(({ to }) => to === name);
  if (asset === undefined) throw new Error(`The ear has no asset ${name}.`);
  return readFile(installedPath(asset));
};

/** The recogniser in Node, straight from the installed packages and public/ear: no build needed. */
export function nodeRecogniser(): Promise<Recogniser> {
  return createRecogniser({
    loadModels: async () => ({
      encoder: await installed('ear/encoder.onnx'),
      head: await readFile(head),
    }),
  });
}

/**
 * The sound of a WAV file at 16 kHz, mono, -1 to 1.
 * @throws EarFileError that says why it cannot be read and what to do.
 */
export async function readWav(path: string): Promise<Float32Array> {
  const bytes = await readFile(path).catch((problem: NodeJS.ErrnoException) => {
    throw new EarFileError(
      problem.code === 'ENOENT'
        ? `${path}: there is no such file.`
        : `${path}: cannot be read (${problem.code ?? problem.message}).`,
    );
  });
  const { samples, sampleRate } = soundOf(bytes, path);
  return resampled(samples, sampleRate);
}
