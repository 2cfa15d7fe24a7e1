import type { PromptId } from '../../../src/domain/script';
import { utterancesOf } from '../../../src/ear/node';
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

/** All that an ear made of a sound. */
export interface Heard {
  told: Told[];
  lookMilliseconds: number[];
  /** How far it came where it told nothing. */
  stoppedAt?: 'no speech noticed' | 'speech never ended' | 'no reply fits';
}

/** An ear on trial: 16 kHz sound in, words out, and how long each look took. */
export interface BenchEar {
  name: EarName;
  hear(sound: Float32Array, prompt: PromptId): Promise<Heard>;
}

const cut = new WeakMap<Float32Array, Promise<Float32Array[]>>();
/** The utterances of a sound, cut once for all ears and prompts. */
export function utterancesIn(sound: Float32Array): Promise<Float32Array[]> {
  const utterances = cut.get(sound) ?? utterancesOf(sound);
  cut.set(sound, utterances);
  return utterances;
}

/** Hears nothing: shows that the bench would say so. */
export const deaf: BenchEar = {
  name: 'deaf',
  hear: async () => ({ told: [], lookMilliseconds: [] }),
};
