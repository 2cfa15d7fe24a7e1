/** A worker of the bench's page: times what the ear's worker does between its models. */
import * as runtime from 'onnxruntime-web/wasm';
import type { Grammar } from '../../../../src/domain/hearing/grammar';
import { decode } from '../../../../src/ear/decoding';
import type { Lexicon } from '../../../../src/ear/lexicon';
import { networkOf } from '../../../../src/ear/network';
import { strongReader } from '../../../../src/ear/phoneReader';
import { createRecogniser } from '../../../../src/ear/recognising';
import type { Scored } from './onThePage';

export interface ToScoring {
  assetsBase: string;
  lexicon: Lexicon;
  prompts: Grammar[];
  sounds: { samples: Float32Array; grammar: Grammar }[];
}

const bytesAt = async (address: string) =>
  new Uint8Array(await (await fetch(address)).arrayBuffer());

const unpacked = async (address: string) => {
  const { body } = await fetch(address);
  if (body === null) throw new Error(`${address} is empty.`);
  const stream = body.pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
};

self.onmessage = async ({ data }: MessageEvent<ToScoring>) => {
  const { assetsBase, lexicon, prompts, sounds } = data;
  runtime.env.wasm.wasmBinary = await unpacked(`${assetsBase}ear/ort/runtime.wasm.gz`);
  const reader = await strongReader(runtime, {
    encoder: await bytesAt(`${assetsBase}ear/encoder.onnx`),
    head: await bytesAt(`${assetsBase}ear/phone-head.onnx`),
  });
  const recogniser = createRecogniser(reader);
  const scored: Scored = { compileMilliseconds: [], scoreMilliseconds: [], lookMilliseconds: [] };
  for (const grammar of prompts) {
    const began = performance.now();
    networkOf(grammar, lexicon);
    scored.compileMilliseconds.push(performance.now() - began);
  }
  for (const { samples, grammar } of sounds) {
    const network = networkOf(grammar, lexicon);
    const asked = performance.now();
    const weighed = await recogniser.weigh(samples, grammar, lexicon);
    scored.lookMilliseconds.push(performance.now() - asked);
    if (weighed === null) continue;
    const began = performance.now();
    decode(network, weighed.posteriors);
    scored.scoreMilliseconds.push(performance.now() - began);
  }
  self.postMessage(scored);
};
