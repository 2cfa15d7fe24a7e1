/** A seeded source of numbers from 0 to 1. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

type Random = () => number;
type Noise = (length: number, random: Random) => Float32Array;

const white: Noise = (length, random) => Float32Array.from({ length }, () => random() * 2 - 1);

/** White noise through a few poles: about 3 dB less an octave. */
const pink: Noise = (length, random) => {
  let [a, b, c] = [0, 0, 0];
  return white(length, random).map((x) => {
    a = 0.997 * a + 0.03 * x;
    b = 0.96 * b + 0.1 * x;
    c = 0.6 * c + 0.35 * x;
    return a + b + c + 0.1 * x;
  });
};

/** Mains hum and a fan. */
const hum: Noise = (length, random) => {
  const floor = pink(length, random);
  const base = 50 + random() * 60;
  return floor.map(
    (x, at) =>
      0.3 * x +
      [1, 2, 3, 5].reduce((sum, k) => sum + Math.sin((2 * Math.PI * base * k * at) / 16000) / k, 0),
  );
};

/** Struck notes over a beat. */
const music: Noise = (length, random) => {
  const out = white(length, random).map((x) => x * 0.005);
  for (let at = 0; at < length; at += Math.round((0.15 + random() * 0.3) * 16000)) {
    const note = 110 * 2 ** (Math.floor(random() * 30) / 12);
    for (let k = 0; k < Math.min(8000, length - at); k += 1)
      out[at + k]! +=
        Math.exp(-k / 3000) * Math.sin((2 * Math.PI * note * k) / 16000) +
        (k < 1200 ? (random() - 0.5) * Math.exp(-k / 250) : 0);
  }
  return out;
};

/** Dropped plates and doors. */
const knocks: Noise = (length, random) => {
  const out = pink(length, random).map((x) => x * 0.03);
  for (let at = 0; at < length; at += Math.round((0.2 + random() * 0.8) * 16000))
    for (let k = 0; k < Math.min(4000, length - at); k += 1)
      out[at + k]! += (random() - 0.5) * Math.exp(-k / (200 + 600 * random()));
  return out;
};

export const NOISES: { name: string; kept: boolean; make: Noise }[] = [
  { name: 'pink', kept: false, make: pink },
  { name: 'knocks', kept: false, make: knocks },
  { name: 'music', kept: true, make: music },
  { name: 'hum', kept: true, make: hum },
  { name: 'white', kept: true, make: white },
];

const powerOf = (samples: Float32Array) => {
  const voiced = samples.filter((x) => Math.abs(x) > 0.01);
  return voiced.reduce((sum, x) => sum + x * x, 0) / Math.max(1, voiced.length);
};

/** Speech with 0.25 s around it, in noise so many decibels below it; silence gives noise alone. */
export function mixed(
  speech: Float32Array,
  noise: Noise,
  decibels: number,
  random: Random,
): Float32Array {
  const around = 4000;
  const sound = noise(speech.length + 2 * around, random);
  const speechPower = powerOf(speech);
  const noisePower = sound.reduce((sum, x) => sum + x * x, 0) / sound.length;
  const gain =
    speechPower > 0 ? Math.sqrt(speechPower / noisePower) * 10 ** (-decibels / 20) : 0.05;
  for (let at = 0; at < sound.length; at += 1)
    sound[at] = (sound[at] ?? 0) * gain + (speech[at - around] ?? 0);
  return sound;
}
