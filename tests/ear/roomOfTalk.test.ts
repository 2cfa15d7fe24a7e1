import { describe, expect, it } from 'vitest';
import { Segmenter, SINGLE_SILENCE_SECONDS, type Segmenting } from '../../src/ear/segmenting';

const FRAME_SECONDS = 512 / 16000;

/** Frames of even loudness, relative decibels, in a room where the detector always hears speech. */
const talk = (segmenter: Segmenter, decibels: number, seconds: number): Segmenting[] =>
  Array.from({ length: Math.round(seconds / FRAME_SECONDS) }, () =>
    segmenter.push(new Float32Array(512).fill(0.3 * 10 ** (decibels / 20)), 0.9),
  );

describe('in a room full of talk', () => {
  it('a reply ends when it falls against its own loudness', () => {
    const segmenter = new Segmenter();
    talk(segmenter, -10, 0.5);
    talk(segmenter, 0, 1);
    expect(segmenter.trailingSeconds).toBe(0);
    talk(segmenter, -10, 0.6);
    expect(segmenter.trailingSeconds).toBeGreaterThan(SINGLE_SILENCE_SECONDS);
  });

  it('a softer word does not end it', () => {
    const segmenter = new Segmenter();
    talk(segmenter, 0, 1);
    talk(segmenter, -6, 0.6);
    expect(segmenter.trailingSeconds).toBe(0);
  });

  it('after talk that was let go, a louder voice begins anew without a silence', () => {
    const segmenter = new Segmenter();
    talk(segmenter, -10, 3);
    segmenter.drop();
    expect(talk(segmenter, -10, 2)).not.toContain('onset');
    expect(talk(segmenter, 0, 0.5)).toContain('onset');
  });
});
