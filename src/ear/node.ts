import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import * as runtime from 'onnxruntime-web';
import { EAR_ASSETS, installedPath } from './assets.mjs';
import { createDetector, FRAME, type Detector } from './detecting';
import { beside, smallReader, strongReader, type PhoneReader, type Runtime } from './phoneReader';
import { createRecogniser, LONGEST_SECONDS, type OpenRecogniser } from './recognising';
import { HEARD_RATE, resampled } from './resampling';
import { COMBINED_SILENCE_SECONDS, Segmenter } from './segmenting';
import type { EarSize } from './sizes';
import { EarFileError, soundOf } from './wav';

export type { EarSize } from './sizes';
export { EarFileError } from './wav';

const committed = (name: string) =>
  readFile(fileURLToPath(new URL(`../../public/ear/${name}`, import.meta.url)));

const installed = (name: string) => {
  const asset = EAR_ASSETS.find(({ to }) => to === name);
  if (asset === undefined) throw new Error(`The ear has no asset ${name}.`);
  return readFile(installedPath(asset)).catch(() => {
    throw new Error(`${asset.from} is not installed: run "npm ci".`);
  });
};

/** The recogniser in Node, straight from the installed packages and public/ear: no build needed. */
export const nodeRecogniser = async (size: EarSize = 'strong'): Promise<OpenRecogniser> =>
  createRecogniser(await readerOf(size));

/** The recogniser that looks for stop words alone, as it is in the browser. */
export const nodeQuick = async (): Promise<OpenRecogniser> =>
  createRecogniser(await readerOf('small'), 1);

/**
 * The reader of one size, over this runtime; the strong one with the small one beside it. Loaded
 * once a process: it keeps nothing of what it reads.
 */
export const readerOf = (size: EarSize, over: Runtime = runtime): Promise<PhoneReader> => {
  const loaded = readers.get(over) ?? new Map<EarSize, Promise<PhoneReader>>();
  readers.set(over, loaded);
  const reader = loaded.get(size) ?? load(size, over);
  loaded.set(size, reader);
  return reader;
};
const readers = new WeakMap<Runtime, Map<EarSize, Promise<PhoneReader>>>();

const load = async (size: EarSize, over: Runtime): Promise<PhoneReader> =>
  size === 'small'
    ? smallReader(over, { head: await committed('small-head.onnx') })
    : beside(
        await strongReader(over, {
          encoder: await installed('ear/encoder.onnx'),
          head: await committed('phone-head.onnx'),
        }),
        await readerOf('small', over),
      );

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

/** The voice detector in Node. */
export const nodeDetector = async (): Promise<Detector> =>
  createDetector(runtime, await installed('ear/vad.onnx'));

/**
 * The pieces of 16 kHz sound in which somebody speaks, with a little silence around each; a pause
 * of 0.65 s divides them. Empty where nobody speaks.
 */
export async function utterancesOf(samples: Float32Array): Promise<Float32Array[]> {
  const detector = await (sharedDetector ??= nodeDetector());
  return inTurn(async () => {
    detector.reset();
    const segmenter = new Segmenter();
    const found: Float32Array[] = [];
    const close = () => {
      if (segmenter.open) found.push(segmenter.sound());
      segmenter.reset();
    };
    for (let at = 0; at < samples.length; at += FRAME) {
      const frame = new Float32Array(FRAME);
      frame.set(samples.subarray(at, at + FRAME));
      segmenter.push(frame, await detector.speech(frame));
      if (segmenter.trailingSeconds >= COMBINED_SILENCE_SECONDS) close();
    }
    close();
    return found;
  });
}

let sharedDetector: Promise<Detector> | undefined;
let last: Promise<unknown> = Promise.resolve();
const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
  const result = last.then(work);
  last = result.catch(() => undefined);
  return result;
};

/** Put before and after: files begin and end hard on the word, and the head never heard that. */
const AROUND_SAMPLES = 0.2 * HEARD_RATE;
const LONGEST_SPOKEN_SECONDS = LONGEST_SECONDS - 0.5;

/**
 * The one utterance of a sound file: all from its first word to its last, with little silence
 * around. Null where nobody speaks.
 * @throws EarFileError where that is longer than a reply can be.
 */
export async function utteranceOf(
  samples: Float32Array,
  name: string,
): Promise<Float32Array | null> {
  const pieces = await utterancesOf(samples);
  if (pieces.length === 0) return null;
  const spoken = pieces.reduce((length, piece) => length + piece.length, 0);
  const seconds = spoken / HEARD_RATE;
  if (seconds > LONGEST_SPOKEN_SECONDS)
    throw new EarFileError(
      `${name}: holds ${Math.round(seconds)} s of speech; a reply is at most ` +
        `${LONGEST_SPOKEN_SECONDS} s. Cut it into one file a reply.`,
    );
  const whole = new Float32Array(spoken + 2 * AROUND_SAMPLES);
  let at = AROUND_SAMPLES;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
