import { NOISES } from '../ear/noises';
import type { Half } from './speakers';

type Random = () => number;
/** So many samples at 16 kHz, of any loudness. */
export type NoiseMaker = (length: number, random: Random) => Float32Array;

const named = (name: string): NoiseMaker => {
  const found = NOISES.find((noise) => noise.name === name);
  if (found === undefined) throw new Error(`There is no noise "${name}".`);
  return found.make;
};

/** Rows of random numbers, each held twice as long as the one before (Voss and McCartney). */
const heldPink: NoiseMaker = (length, random) => {
  const rows = Array.from({ length: 14 }, () => random() - 0.5);
  return Float32Array.from({ length }, (_, at) => {
    const row = Math.min(13, 31 - Math.clz32((at + 1) & -(at + 1)));
    rows[row] = random() - 0.5;
    return rows.reduce((sum, value) => sum + value, random() - 0.5);
  });
};

/** Iron plates let go: a thud, a clatter of hits, and rings that die away. */
const plates: NoiseMaker = (length, random) => {
  const out = Float32Array.from({ length }, () => (random() - 0.5) * 0.01);
  for (let at = 0; at < length; at += Math.round((0.5 + random() * 1.2) * 16000)) {
    const rings = Array.from({ length: 5 }, () => 180 + 4200 * random() ** 2);
    const hits = Array.from(
      { length: 1 + Math.floor(random() * 4) },
      (_, k) => k * random() * 0.09,
    );
    for (const hit of hits)
      for (let k = 0; k < 11000; k += 1) {
        const place = at + Math.round(hit * 16000) + k;
        if (place >= length) break;
        const ring = rings.reduce((sum, hertz) => sum + Math.sin((6.2832 * hertz * k) / 16000), 0);
        out[place]! +=
          (1 - hit * 4) *
          (0.16 * ring * Math.exp(-k / 2200) +
            (random() - 0.5) * 1.2 * Math.exp(-k / 150) +
            Math.sin((6.2832 * 70 * k) / 16000) * Math.exp(-k / 900));
      }
  }
  return out;
};

/** Held chords with a pulse, for the tuned half alone. */
const chords: NoiseMaker = (length, random) => {
  let notes: number[] = [];
  return Float32Array.from({ length }, (_, at) => {
    if (at % 16000 === 0) {
      const root = 110 * 2 ** (Math.floor(random() * 12) / 12);
      notes = [0, 4, 7, 12].map((step) => root * 2 ** (step / 12));
    }
    const pulse = Math.exp(-(at % 8000) / 1500);
    const chord = notes.reduce(
      (sum, hertz) =>
        sum +
        [1, 2, 3].reduce((all, k) => all + Math.sin((6.2832 * k * hertz * at) / 16000) / k, 0),
      0,
    );
    return chord * (0.3 + 0.7 * pulse) + (random() - 0.5) * pulse;
  });
};

/** Five who talk at once, cut out of these pieces of speech. */
export const babbleOf =
  (pieces: Float32Array[]): NoiseMaker =>
  (length, random) => {
    const out = new Float32Array(length);
    for (let talker = 0; talker < 5; talker += 1)
      for (let at = -Math.floor(random() * 16000); at < length;) {
        const piece = pieces[Math.floor(random() * pieces.length)] ?? new Float32Array(1600);
        const gain = 0.5 + random() / 2;
        piece.forEach((sample, k) => {
          if (at + k >= 0 && at + k < length) out[at + k]! += gain * sample;
        });
        at += piece.length + Math.floor(random() * 3000);
      }
    return out;
  };

/** The noises of each half; no maker serves both. Babble is made of that half's talk. */
export const MAKERS: Record<Half, Record<string, NoiseMaker>> = {
  tuned: { pink: named('pink'), music: chords, plates: named('knocks') },
  reported: {
    pink: heldPink,
    music: named('music'),
    plates,
    hum: named('hum'),
    white: named('white'),
  },
};

/** A room whose sound dies away in 0.3 to 0.8 s (60 dB), the direct sound in front. */
export function echoed(speech: Float32Array, random: Random): Float32Array {
  const decay = 0.3 + random() * 0.5;
  const out = new Float32Array(speech.length + Math.round(decay * 16000));
  out.set(speech);
  for (let tap = 0; tap < 160; tap += 1) {
    const seconds = 0.004 + random() ** 1.5 * decay * 0.8;
    const gain = 0.22 * (random() < 0.5 ? -1 : 1) * 10 ** ((-3 * seconds) / decay);
    const delay = Math.round(seconds * 16000);
    for (let at = 0; at < speech.length; at += 1) out[at + delay]! += gain * (speech[at] ?? 0);
  }
  return out;
}

/** Mean power of the loud parts: of every 20 ms less than 30 dB below the loudest. */
export function spokenPower(speech: Float32Array): number {
  const powers: number[] = [];
  for (let at = 0; at + 320 <= speech.length; at += 320)
    powers.push(meanPower(speech.subarray(at, at + 320)));
  const loudest = powers.reduce((most, power) => Math.max(most, power), 1e-12);
  const loud = powers.filter((power) => power > loudest / 1000);
  return loud.reduce((sum, power) => sum + power, 0) / Math.max(1, loud.length) || 1e-12;
}

export const meanPower = (sound: Float32Array) =>
  sound.reduce((sum, x) => sum + x * x, 0) / Math.max(1, sound.length);

/** Adds noise so many decibels below the spoken parts; the loudest sample stays below 1. */
export function withNoise(
  sound: Float32Array,
  speechPower: number,
  noise: Float32Array,
  decibels: number,
): Float32Array {
  const gain = Math.sqrt(speechPower / (meanPower(noise) || 1)) * 10 ** (-decibels / 20);
  const out = sound.map((x, at) => x + gain * (noise[at] ?? 0));
  const peak = out.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
  return peak > 0.98 ? out.map((x) => (x * 0.98) / peak) : out;
}
