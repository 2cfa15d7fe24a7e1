import type { PromptId } from '../../../src/domain/script';
import type { EarName } from './jobs';

/** Words that an ear told while it heard a sound. */
export interface Told {
  text: string;
  /** 0 to 1; an ear without one says 1. */
  confidence: number;
  /** When they were told, from the beginning of the sound, had it come in as it was spoken. */
  atSeconds: number | null;
  /** How much of the sound had come in by then: what no faster machine could change. */
  heardSeconds: number | null;
}

/** An ear on trial: 16 kHz sound in, words out, and how long each look took. */
export interface BenchEar {
  name: EarName;
  hear(
    sound: Float32Array,
    prompt: PromptId,
  ): Promise<{ told: Told[]; lookMilliseconds: number[] }>;
}

/** Hears nothing: shows that the bench would say so. */
export const deaf: BenchEar = {
  name: 'deaf',
  hear: async () => ({ told: [], lookMilliseconds: [] }),
};
