import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { groupSecondsIn, plannedWarmUp } from '../../src/cli/warmUps';
import { BEATS_WITHIN_MILLISECONDS, beatsOff } from '../bench/rendered/beats';
import { readWav } from '../../src/ear/node';
import { HEARD_RATE } from '../../src/ear/resampling';
import { sayso } from './running';

const book = bookOf();
const [longest] = Object.values(book.warmUps)
  .map((warmUp) => ({ warmUp, plan: plannedWarmUp(book, warmUp) }))
  .sort((one, other) => other.plan.totalSeconds - one.plan.totalSeconds);
if (longest === undefined) throw new Error('No warm-up is shipped.');
const { warmUp, plan } = longest;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'sayso-render-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('sayso render', () => {
  it('writes the longest warm-up as one sound file, as long as its plan, every beat within 10 ms of it', async () => {
    const out = join(folder, 'longest.wav');
    const { status, answers } = await sayso('render', warmUp.id, '--out', out);
    expect(status).toBe(0);
    expect(answers).toEqual([{ file: out, seconds: plan.totalSeconds, leftOut: [] }]);
    const [samples, sampleRate] = [await readWav(out), HEARD_RATE];
    expect(Math.abs(samples.length / sampleRate - plan.totalSeconds)).toBeLessThan(1.1);
    const off = beatsOff(samples, sampleRate, plan.heard);
    expect(off.length).toBeGreaterThan(60);
    for (const { atSeconds, milliseconds } of off)
      expect(Math.abs(milliseconds), `the beat at ${atSeconds} s`).toBeLessThan(
        BEATS_WITHIN_MILLISECONDS,
      );
    // A beat that was late would be found: the same sound against a plan that is 15 ms later.
    const later = plan.heard.map((one) => ({ ...one, atSeconds: one.atSeconds + 0.015 }));
    const worst = Math.max(
      ...beatsOff(samples, sampleRate, later).map(({ milliseconds }) => Math.abs(milliseconds)),
    );
    expect(worst).toBeGreaterThan(BEATS_WITHIN_MILLISECONDS);
  });

  it('ends when it is asked to, and says what is left out', async () => {
    const out = join(folder, 'short.wav');
    const { answers } = await sayso('render', 'before-the-bar', '--out', out, '--minutes', '1');
    expect(answers[0]?.['seconds']).toBe(60);
    expect(answers[0]?.['leftOut']).toContain('the stick press');
    expect((await readWav(out)).length / HEARD_RATE).toBeGreaterThan(60);
  });

  it.each([
    [['render'], 2, /Name a warm-up: before-the-bar, four-stations/],
    [['render', 'hinge', '--out', 'x.wav'], 1, /no warm-up "hinge". Known: before-the-bar/],
    [['render', 'before-the-bar'], 2, /--out FILE.wav/],
    [['render', 'before-the-bar', '--out', 'x.wav', '--minutes', 'ten'], 2, /is a number/],
    [['render', 'before-the-bar', '--out', 'x.wav', '--minutes', '0.5'], 1, /It takes \d/],
    [['render', 'before-the-bar', '--out', 'no/such/folder/x.wav'], 1, /cannot be written/],
    [['render', 'before-the-bar', '--out', 'x.wav', '--language', 'es'], 1, /Known: none/],
    [['plan', 'hinge', '--minutes', '3'], 2, /goes with a warm-up alone/],
  ] as const)('%s is refused', async (words, exit, problem) => {
    const { status, errors } = await sayso(...words);
    expect(status).toBe(exit);
    expect(errors).toMatch(problem);
  });
});

describe('sayso plan', () => {
  it('lists the welcome, every change and turn, and the end; they sum to the whole', async () => {
    const { status, answers } = await sayso('plan', warmUp.id);
    expect(status).toBe(0);
    const lines = answers as { step?: string; seconds?: number; totalSeconds?: number }[];
    const sum = lines.reduce((total, { seconds = 0 }) => total + seconds, 0);
    expect(lines.at(-1)?.totalSeconds).toBeCloseTo(sum, 3);
    const steps = lines.map(({ step }) => step);
    expect([steps[0], steps[1], steps.at(-2)]).toEqual([
      'welcome',
      `change to ${plan.turns[0]?.turn.name}`,
      'end',
    ]);
  });

  it('speaks to a group more slowly than to one', () => {
    const text = 'Hips behind you until they touch the wall, then stand tall.';
    const words = text.split(' ').length;
    const perMinute = (60 * words) / groupSecondsIn('en')(text);
    // 110 to 130 words a minute for a group (DOMAIN: common practice, no source).
    expect(perMinute).toBeGreaterThan(105);
    expect(perMinute).toBeLessThan(135);
  });
});
