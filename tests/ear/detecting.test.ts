import { expect, it } from 'vitest';
import { FRAME } from '../../src/ear/detecting';
import { nodeDetector } from '../../src/ear/node';
import { Segmenter } from '../../src/ear/segmenting';
import { COACH_VOICE, fliteInNode } from '../../src/voice/node';

it.each(['stop', 'pain'])(
  'a loud "%s" out of a long silence is noticed, however it falls into the frames',
  async (word) => {
    const detector = await nodeDetector();
    const { samples } = (await fliteInNode()).synthesize(word, COACH_VOICE);
    const missed: number[] = [];
    for (let offset = 0; offset < FRAME; offset += 64) {
      detector.reset();
      const segmenter = new Segmenter();
      const silence = 10 * 16000 + offset;
      const sound = new Float32Array(Math.ceil((silence + samples.length) / FRAME) * FRAME);
      // A microphone's gain control drives a near voice into its limits.
      sound.set(
        samples.map((sample) => Math.tanh(sample * 2.7)),
        silence,
      );
      let noticed = false;
      for (let at = 0; at < sound.length; at += FRAME) {
        const frame = sound.slice(at, at + FRAME);
        noticed = segmenter.push(frame, await detector.speech(frame)) === 'onset' || noticed;
      }
      if (!noticed) missed.push(offset);
    }
    expect(missed).toEqual([]);
  },
);
