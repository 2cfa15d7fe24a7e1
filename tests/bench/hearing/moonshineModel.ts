import { readFile } from 'node:fs/promises';
import * as onnx from 'onnxruntime-web';
import { EAR_ASSETS, installedPath } from '../../../src/ear/assets.mjs';

export const [BEGIN, END] = [1, 2] as const;
const LAYERS = 6;
const HEADS = 8;
const HEAD_WIDTH = 36;
/** Names of what the decoder remembers: of its own words, and of the sound. */
const memories = (of: 'decoder' | 'encoder') =>
  Array.from({ length: LAYERS }, (_, layer) =>
    ['key', 'value'].map((what) => `${layer}.${of}.${what}`),
  ).flat();
const OWN = memories('decoder');
const HEARD = memories('encoder');

/** A row of words so far, its natural logarithm, and what the decoder remembers of it. */
export interface Path {
  tokens: number[];
  score: number;
  /** One [HEADS, tokens - 1, HEAD_WIDTH] for each of OWN; empty before the first step. */
  memory: Float32Array[];
}

/** What may follow a path, and the path's memory with its last token in it. */
export interface Step {
  row: Row;
  memory: Float32Array[];
}

/** One sound: the encoder's states and the decoder's memory of them. */
export interface Sound {
  states: onnx.Tensor;
  memory: Float32Array[] | null;
}

/** One row of logits, normalised. */
export class Row {
  private readonly norm: number;

  constructor(private readonly logits: Float32Array) {
    let highest = -Infinity;
    for (const logit of logits) if (logit > highest) highest = logit;
    let sum = 0;
    for (const logit of logits) sum += Math.exp(logit - highest);
    this.norm = highest + Math.log(sum);
  }

  log(token: number): number {
    return (this.logits[token] ?? -Infinity) - this.norm;
  }

  /** Of any of these tokens. */
  logOfAny(tokens: number[]): number {
    return Math.log(tokens.reduce((sum, token) => sum + Math.exp(this.log(token)), 0));
  }

  best(): number {
    let best = 0;
    this.logits.forEach((logit, token) => {
      if (logit > (this.logits[best] ?? 0)) best = token;
    });
    return best;
  }
}

/** Moonshine tiny with its own decoder, read from the installed package. */
export async function moonshineModel() {
  const asset = EAR_ASSETS.find(({ to }) => to === 'ear/encoder.onnx');
  if (asset === undefined) throw new Error('The ear names no encoder.');
  const path = installedPath(asset);
  const encoder = await onnx.InferenceSession.create(await readFile(path));
  const decoder = await onnx.InferenceSession.create(
    await readFile(path.replace('encoder_model', 'decoder_model_merged')),
  );
  const known = new WeakMap<Float32Array, Sound>();

  const encode = async (samples: Float32Array): Promise<Sound> => {
    const before = known.get(samples);
    if (before) return before;
    const input = new onnx.Tensor('float32', samples, [1, samples.length]);
    const { last_hidden_state: states } = await encoder.run({ input_values: input });
    if (states === undefined) throw new Error('The encoder gave no states.');
    const sound = { states, memory: null };
    known.set(samples, sound);
    return sound;
  };

  /** The next step of paths of one length; the first step takes one path. */
  const follow = async (sound: Sound, paths: Path[]): Promise<Step[]> => {
    const count = paths.length;
    const length = paths[0]?.tokens.length ?? 1;
    const [, frames = 0, width = 0] = sound.states.dims;
    const first = length === 1;
    const repeated = (one: Float32Array) => joined(paths.map(() => one));
    const past = (values: Float32Array | null, long: number) =>
      values === null
        ? new onnx.Tensor('float32', new Float32Array(0), [0, HEADS, 1, HEAD_WIDTH])
        : new onnx.Tensor('float32', values, [count, HEADS, long, HEAD_WIDTH]);
    const feeds: Record<string, onnx.Tensor> = {
      input_ids: new onnx.Tensor(
        'int64',
        BigInt64Array.from(paths.map(({ tokens }) => BigInt(tokens.at(-1) ?? BEGIN))),
        [count, 1],
      ),
      encoder_hidden_states: new onnx.Tensor(
        'float32',
        repeated(sound.states.data as Float32Array),
        [count, frames, width],
      ),
      use_cache_branch: new onnx.Tensor('bool', [!first], [1]),
    };
    OWN.forEach((name, at) => {
      const own = first ? null : joined(paths.map(({ memory }) => memory[at] as Float32Array));
      feeds[`past_key_values.${name}`] = past(own, length - 1);
    });
    HEARD.forEach((name, at) => {
      const heard =
        first || sound.memory === null ? null : repeated(sound.memory[at] as Float32Array);
      feeds[`past_key_values.${name}`] = past(heard, frames);
    });
    const result = await decoder.run(feeds);
    const data = (name: string) => result[name]?.data as Float32Array;
    if (first) sound.memory = HEARD.map((name) => data(`present.${name}`));
    const part = (values: Float32Array, at: number) =>
      values.slice((at * values.length) / count, ((at + 1) * values.length) / count);
    return paths.map((_, at) => ({
      row: new Row(part(data('logits'), at)),
      memory: OWN.map((name) => part(data(`present.${name}`), at)),
    }));
  };

  return { encode, follow };
}

function joined(parts: Float32Array[]): Float32Array {
  const [one] = parts;
  if (parts.length === 1 && one) return one;
  const out = new Float32Array(parts.reduce((length, part) => length + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}
