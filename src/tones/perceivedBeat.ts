/** The span over which loudness is felt. */
const SPAN_SECONDS = 0.02;
/** A word is felt to fall where its vowel rises: half of its loudest, 6 dB below it. */
const RISEN = 0.5;

/**
 * Seconds from the start of a word's sound to the moment at which it is felt to fall: the rise of
 * its vowel, not its first consonant ("six" begins 0.1 s before it). Morton, Marcus and Frankish
 * 1976, Perceptual centers, Psychological Review 83 (from memory; the half is common practice, no
 * source). 0 for silence.
 */
export function perceivedBeatSeconds(samples: Float32Array, sampleRate: number): number {
  const span = Math.max(1, Math.round(SPAN_SECONDS * sampleRate));
  const powers: number[] = [];
  for (let from = 0; from + span <= samples.length; from += span / 4) {
    const piece = samples.subarray(Math.round(from), Math.round(from) + span);
    powers.push(piece.reduce((sum, sample) => sum + sample * sample, 0));
  }
  const loudest = Math.max(0, ...powers);
  const risen = powers.findIndex((power) => power > 0 && power >= loudest * RISEN * RISEN);
  return risen < 0 ? 0 : (risen * span) / 4 / sampleRate;
}
