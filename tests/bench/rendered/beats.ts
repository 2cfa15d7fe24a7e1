import type { Heard } from '../../../src/domain/warmUp/planning';
import { perceivedBeatSeconds } from '../../../src/tones/perceivedBeat';

/** The goal: a beat lies in the sound where the plan has it. */
export const BEATS_WITHIN_MILLISECONDS = 10;

/** The sound is cut so far before and after the moment of a beat. */
const BEFORE_SECONDS = 0.3;
const AFTER_SECONDS = 0.6;
/** A tone is there from this part of its loudest. */
const TONE_BEGINS = 0.1;

/** How far each beat lies from its moment in the sound itself, in milliseconds; later is more. */
export function beatsOff(
  samples: Float32Array,
  sampleRate: number,
  heard: Heard[],
): { atSeconds: number; milliseconds: number }[] {
  return heard.flatMap((one) => {
    if (one.do !== 'beat') return [];
    const from = Math.round((one.atSeconds - BEFORE_SECONDS) * sampleRate);
    const to = Math.round((one.atSeconds + AFTER_SECONDS) * sampleRate);
    const around = samples.slice(from, to);
    const found =
      one.text === null
        ? toneBegins(around) / sampleRate
        : perceivedBeatSeconds(around, sampleRate);
    const seconds = from / sampleRate + found - one.atSeconds;
    return [{ atSeconds: one.atSeconds, milliseconds: seconds * 1000 }];
  });
}

function toneBegins(samples: Float32Array): number {
  const most = samples.reduce((loudest, sample) => Math.max(loudest, Math.abs(sample)), 0);
  return samples.findIndex((sample) => Math.abs(sample) >= most * TONE_BEGINS);
}
