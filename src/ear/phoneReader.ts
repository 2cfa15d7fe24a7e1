import type * as Onnx from 'onnxruntime-web';
import { BELIEF, BOTH_BELIEF, SMALL_BELIEF, type Belief } from './confidence';
import { posteriorsOf, type Posteriors } from './posteriors';

/** Turns 16 kHz mono sound into what each of its moments says of every phone. */
export interface PhoneReader {
  /** One row every 24 ms. */
  read(samples: Float32Array): Promise<Posteriors>;
  /** How far replies in its rows are to be believed. */
  belief: Belief;
  /** Another that reads the same sound; a reply is judged by both. */
  beside?: PhoneReader;
}

/** Both at once: a reply is what both together find. */
export const beside = (strong: PhoneReader, small: PhoneReader): PhoneReader => ({
  ...strong,
  belief: BOTH_BELIEF,
  beside: small,
});

/** The runtime of the models: another build of one package in Node and in the browser. */
export type Runtime = typeof Onnx;

/**
 * The strong reader: a head on a frozen encoder of speech. Loads its models (about 0.3 s).
 * @throws Error where a model cannot be read.
 */
export async function strongReader(
  runtime: Runtime,
  { encoder, head }: { encoder: Uint8Array; head: Uint8Array },
): Promise<PhoneReader> {
  const listening = await sessionOf(runtime, encoder);
  const telling = await sessionOf(runtime, head);
  return {
    belief: BELIEF,
    read: inTurn(async (samples) => {
      const sound = new runtime.Tensor('float32', samples, [1, samples.length]);
      const { last_hidden_state: states } = await listening.run({ input_values: sound });
      if (states === undefined) throw new Error('The encoder gave no states.');
      return rowsOf(await telling.run({ x: states, sound }));
    }),
  };
}

/**
 * The small reader: a head on the log-mels of the sound alone, soon loaded and weaker.
 * @throws Error where the model cannot be read.
 */
export async function smallReader(
  runtime: Runtime,
  { head }: { head: Uint8Array },
): Promise<PhoneReader> {
  const telling = await sessionOf(runtime, head);
  return {
    belief: SMALL_BELIEF,
    read: inTurn(async (samples) => {
      const sound = new runtime.Tensor('float32', samples, [1, samples.length]);
      return rowsOf(await telling.run({ sound }));
    }),
  };
}

/**
 * One thread: two were slower on two shared cores. The runtime's own rewriting of a model is left
 * out: it took longer to load and 40 MB more to hold for 4 % less time.
 */
export function sessionOf(runtime: Runtime, model: Uint8Array): Promise<Onnx.InferenceSession> {
  runtime.env.wasm.numThreads = 1;
  runtime.env.logLevel = 'error';
  return runtime.InferenceSession.create(model, { graphOptimizationLevel: 'disabled' });
}

/** A model takes one call at a time. */
function inTurn(read: PhoneReader['read']): PhoneReader['read'] {
  let last: Promise<unknown> = Promise.resolve();
  return (samples) => {
    const rows = last.then(() => read(samples));
    last = rows.catch(() => undefined);
    return rows;
  };
}

const rowsOf = ({ y }: Onnx.InferenceSession.ReturnType): Posteriors => {
  if (y === undefined) throw new Error('The head gave no rows.');
  return posteriorsOf(y.data as Float32Array);
};
