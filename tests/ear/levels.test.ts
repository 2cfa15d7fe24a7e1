import { expect, test } from 'vitest';
import { LevelMeter, type LevelReport } from '../../src/ear/levels';

/** Frames of noise with frames of speech between them, as a detector would judge them. */
function reportOf({ speech, noise }: { speech: number; noise: number }): LevelReport {
  const meter = new LevelMeter();
  let last: LevelReport = { level: 0, hearsWell: 'unknown' };
  const frame = (peak: number) =>
    Float32Array.from({ length: 512 }, (_, at) => peak * Math.sin(at));
  for (let at = 0; at < 300; at += 1) {
    const speaking = at % 60 > 30;
    last = meter.push(frame(speaking ? speech : noise), speaking ? 0.9 : 0.05) ?? last;
  }
  return last;
}

test('nobody has spoken yet: it cannot be said', () => {
  const meter = new LevelMeter();
  const reports = Array.from({ length: 9 }, () => meter.push(new Float32Array(512), 0));
  expect(reports.filter((report) => report !== null)).toMatchObject(
    Array.from({ length: 3 }, () => ({ level: 0, hearsWell: 'unknown' })),
  );
});

test.each([
  [{ speech: 0.3, noise: 0.003 }, 'good'],
  [{ speech: 0.02, noise: 0.003 }, 'good'],
  [{ speech: 0.02, noise: 0.015 }, 'quiet'],
  [{ speech: 0.0005, noise: 0.00001 }, 'quiet'],
  [{ speech: 1, noise: 0.003 }, 'loud'],
] as const)('%o hears %s', (sound, hearsWell) => {
  expect(reportOf(sound).hearsWell).toBe(hearsWell);
});

test('louder shows as more', () => {
  const levels = [0.001, 0.01, 0.1, 1].map((speech) => reportOf({ speech, noise: speech }).level);
  expect(levels).toEqual([...levels].sort((a, b) => a - b));
  expect(levels.at(-1)).toBeGreaterThan(0.9);
});
