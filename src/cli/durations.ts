import { durationsOf } from '../cues/durationsOf';
import { OWN_LANGUAGE } from '../cues/languages';
import { secondsOf as secondsBy } from '../domain/pacing/duration';

/** How long a text takes to say in a language, in seconds, by the committed table. */
export const secondsIn = (language: string): ((text: string) => number) => {
  const durations = durationsOf(language);
  return (text) => secondsBy(durations, text);
};

/** The same in the language that the table was measured in. */
export const secondsOf = secondsIn(OWN_LANGUAGE);
