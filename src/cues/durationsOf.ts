import type { Durations } from '../domain/pacing/duration';
import table from './durations.json' with { type: 'json' };
import { OWN_LANGUAGE } from './languages';

/**
 * How long words of a language take to say: measured for the language of the shipped voice, for
 * any other by their letters, with the gaps of the same voice.
 */
export const durationsOf = (language: string): Durations =>
  language === OWN_LANGUAGE ? table : { ...table, words: {} };
