import { ACTS_FROM } from './confidence';
import type { Looked } from './looked';
import type { Following } from './meaning';
import type { HeardWords } from './recognising';
import { COMBINED_SILENCE_SECONDS } from './segmenting';

/** Silence that ends a sure reply, by what else could follow. */
const ENDING_SECONDS: Record<Following, number> = {
  nothing: 0.2,
  // Longer than the silence of any consonant inside a reply, with one more look.
  rest: 0.25,
  little: 0.33,
  more: COMBINED_SILENCE_SECONDS,
};
/** Where the detector still hears speech: a long last vowel is clear only at its beginning. */
const LONG_PHONE_SECONDS = 0.3;
/** So many looks in a row that believe the same words, and so much longer a wait, tell others' talk. */
const OTHERS_FROM_LOOKS = 4;
const OTHERS_AFTER_SECONDS = 0.35;

/** Seconds of silence after which it is over. A reply that is not sure may be the first half of something; a stop word need not be. */
export const endsAfter = ({ confidence, following }: HeardWords, isUrgent: boolean): number =>
  ENDING_SECONDS[confidence >= ACTS_FROM || isUrgent ? following : 'more'];

/** Seconds of silence after the words of the last look, as far as it is known. */
export function silenceAfter(
  looked: Looked | null,
  segment: { trailingSeconds: number; spokenFrames: number },
  nowSeconds: number,
): number {
  if (looked?.heard == null) return 0;
  const { trailingSeconds, spokenFrames } = segment;
  const { silenceSeconds, following } = looked.heard;
  // More may follow: then whatever else sounded like a phone was perhaps the rest of it.
  const ended = following === 'nothing' ? Infinity : (looked.talk?.endedSeconds ?? Infinity);
  // ... but not where look after look believes the same words: then it is others who talk.
  const isOthers = looked.agreed >= OTHERS_FROM_LOOKS;
  const quietSeconds = isOthers ? Math.max(ended, silenceSeconds - OTHERS_AFTER_SECONDS) : ended;
  const isQuiet = looked.spokenFrames === spokenFrames;
  const byPhones =
    Math.min(silenceSeconds, quietSeconds) + (isQuiet ? nowSeconds - looked.atSeconds : 0);
  return trailingSeconds > 0 ? Math.min(trailingSeconds, byPhones) : byPhones - LONG_PHONE_SECONDS;
}
