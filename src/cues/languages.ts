import type { Durations } from '../domain/pacing/duration';
import table from './durations.json' with { type: 'json' };

/** The language of the shipped ear and voice, and of the measured durations. */
export const OWN_LANGUAGE = 'en';

/**
 * Whether the ear on the device has phones of a language. Where it has none, nothing is spoken to
 * it: replies are typed or come from the hands, and no pronunciation is asked for or compared.
 */
export const hasPhones = (language: string): boolean => language === OWN_LANGUAGE;

/** Whether the shipped voice speaks a language. */
export const isShippedVoice = (language: string): boolean => language === OWN_LANGUAGE;

/**
 * How long words of a language take to say: measured for the language of the shipped voice, for
 * any other by their letters, with the gaps of the same voice.
 */
export const durationsOf = (language: string): Durations =>
  language === OWN_LANGUAGE ? table : { ...table, words: {} };
