import {
  COACH_VOICE,
  fliteInNode,
  SAYSO_VOICE as CUES,
  type ShippedVoice,
} from '../../src/voice/node';
import { resampled } from '../../src/ear/resampling';

export { COACH_VOICE };
/** The voice of the cues as a person would speak with it. */
export const SAYSO_VOICE: ShippedVoice = { ...CUES, isClear: false };

/** Speech of the shipped synthesiser at 16 kHz, with seconds of silence around it. */
export async function spoken(
  text: string,
  {
    voice = COACH_VOICE,
    before = 0.3,
    after = 0.3,
  }: {
    voice?: ShippedVoice;
    before?: number;
    after?: number;
  } = {},
): Promise<Float32Array> {
  const { samples, sampleRate } = (await fliteInNode()).synthesize(text, voice);
  return padded(resampled(samples, sampleRate), before, after);
}

export function padded(samples: Float32Array, before: number, after: number): Float32Array {
  const out = new Float32Array(samples.length + Math.round((before + after) * 16000));
  out.set(samples, Math.round(before * 16000));
  return out;
}

export function joined(...pieces: Float32Array[]): Float32Array {
  const out = new Float32Array(pieces.reduce((length, piece) => length + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    out.set(piece, at);
    at += piece.length;
  }
  return out;
}

/** A WAV file of these samples as 16-bit PCM, every channel the same. */
export function wavOf(samples: Float32Array, sampleRate: number, channels = 1): Buffer {
  const body = Buffer.alloc(samples.length * channels * 2);
  samples.forEach((sample, frame) => {
    for (let channel = 0; channel < channels; channel += 1)
      body.writeInt16LE(Math.round(sample * 32767), (frame * channels + channel) * 2);
  });
  return wavFile({ codec: 1, bits: 16, channels, sampleRate }, body);
}

export function wavFile(
  {
    codec,
    bits,
    channels,
    sampleRate,
  }: Record<'codec' | 'bits' | 'channels' | 'sampleRate', number>,
  body: Buffer,
): Buffer {
  const head = Buffer.alloc(44);
  head.write('RIFF', 0);
  head.writeUInt32LE(36 + body.length, 4);
  head.write('WAVEfmt ', 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(codec, 20);
  head.writeUInt16LE(channels, 22);
  head.writeUInt32LE(sampleRate, 24);
  head.writeUInt32LE((sampleRate * channels * bits) / 8, 28);
  head.writeUInt16LE((channels * bits) / 8, 32);
  head.writeUInt16LE(bits, 34);
  head.write('data', 36);
  head.writeUInt32LE(body.length, 40);
  return Buffer.concat([head, body]);
}
