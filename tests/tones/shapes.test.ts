import { describe, expect, it } from 'vitest';
import { TONE_SECONDS, TONES, type ToneName } from '../../src/ports';
import { toneSamples } from '../../src/tones/shapes';
import { waveFile } from '../../src/tones/wave';

const RATE = 44100;

/** What an ear can tell: length, number of bursts, pitch at the beginning and at the end. */
const heard = (name: ToneName) => {
  const samples = toneSamples(name, RATE);
  const bursts: [number, number][] = [];
  const frame = 441;
  let from: number | null = null;
  for (let at = 0; at <= samples.length; at += frame) {
    const loud = samples.slice(at, at + frame).some((sample) => Math.abs(sample) > 0.02);
    if (loud) from ??= at;
    if (!loud && from !== null) bursts.push([from, at]);
    if (!loud) from = null;
  }
  if (from !== null) bursts.push([from, samples.length]);
  const first = bursts[0]!;
  const last = bursts.at(-1)!;
  const window = Math.round(0.03 * RATE);
  return {
    seconds: samples.length / RATE,
    bursts: bursts.length,
    beginsHertz: pitch(samples.slice(first[0] + 220, first[0] + 220 + window)),
    endsHertz: pitch(samples.slice(last[1] - 440 - window, last[1] - 440)),
  };
};

/** By the strongest repetition between 200 and 1500 Hz. */
const pitch = (samples: Float32Array): number => {
  const score = (lag: number) => {
    let [cross, early, late] = [0, 0, 0];
    for (let at = lag; at < samples.length; at += 1) {
      cross += samples[at]! * samples[at - lag]!;
      early += samples[at]! ** 2;
      late += samples[at - lag]! ** 2;
    }
    return cross / Math.sqrt(early * late);
  };
  const lags = Array.from({ length: 192 }, (_, at) => at + 29);
  const best = Math.max(...lags.map(score));
  return RATE / lags.find((lag) => score(lag) > best - 0.02)!;
};

const semitones = (one: number, other: number) => Math.abs(12 * Math.log2(one / other));

describe('tones', () => {
  it.each(TONES)('%s is over when the voice may go on', (name) => {
    expect(heard(name).seconds).toBeLessThanOrEqual(TONE_SECONDS[name] + 0.001);
    expect(heard(name).seconds).toBeGreaterThan(TONE_SECONDS[name] - 0.05);
  });

  const pairs = TONES.flatMap((one, at) =>
    TONES.slice(at + 1).map((other) => [one, other] as const),
  );
  it.each(pairs)('%s and %s are told apart by contour and by length', (one, other) => {
    const [a, b] = [heard(one), heard(other)];
    const contour =
      a.bursts !== b.bursts ||
      semitones(a.beginsHertz, b.beginsHertz) >= 3 ||
      semitones(a.endsHertz, b.endsHertz) >= 3;
    const ratio = Math.max(a.seconds, b.seconds) / Math.min(a.seconds, b.seconds);
    expect(contour, JSON.stringify([a, b])).toBe(true);
    expect(ratio, JSON.stringify([a.seconds, b.seconds])).toBeGreaterThan(1.1);
  });

  it('go up for good news and down for bad', () => {
    const rise = (name: ToneName) => heard(name).endsHertz / heard(name).beginsHertz;
    expect(rise('listening')).toBeGreaterThan(1.2);
    expect(rise('accepted')).toBeGreaterThan(1.2);
    expect(rise('not-understood')).toBeLessThan(0.85);
    expect(rise('halted')).toBeLessThan(0.6);
    expect(rise('begin')).toBeCloseTo(1, 1);
  });

  it.each(TONES)('%s has no click, is loud enough and never overdriven', (name) => {
    const samples = toneSamples(name, RATE);
    expect(Math.abs(samples[0]!)).toBeLessThan(0.001);
    expect(Math.abs(samples.at(-1)!)).toBeLessThan(0.001);
    const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    expect(peak).toBeGreaterThan(0.2);
    expect(peak).toBeLessThanOrEqual(0.75);
    let jump = 0;
    for (let at = 1; at < samples.length; at += 1)
      jump = Math.max(jump, Math.abs(samples[at]! - samples[at - 1]!));
    // The steepest slope of 1175 Hz with its harmonics at this level.
    expect(jump).toBeLessThan(0.2);
  });

  it('become 16-bit files that hold the same sound', () => {
    const file = waveFile(new Float32Array([0, 0.5, -1, 2]), 16000);
    const view = new DataView(file.buffer);
    expect(new TextDecoder().decode(file.slice(0, 4))).toBe('RIFF');
    expect(view.getUint32(24, true)).toBe(16000);
    expect([44, 46, 48, 50].map((at) => view.getInt16(at, true))).toEqual([
      0, 16384, -32767, 32767,
    ]);
  });
});
