import type { Cancel, Voice } from '../ports';
import { oneAtATime } from './oneAtATime';

/** One failure may be an accident, two in a row are not: then the other voice speaks first. */
const FAILURES_TO_SWAP = 2;

/**
 * Two voices as one: a line that the first cannot say, or breaks off, is said again from its
 * beginning by the other; it ends as failed only when neither could. After two failures in a row the other
 * voice is asked first. Until a voice has spoken, lines are prepared by both.
 */
export const fallingBack = (first: Voice, then: Voice): Voice => {
  let [preferred, other] = [first, then];
  let failures = 0;
  let proven = false;

  const failed = () => {
    failures += 1;
    proven = false;
    if (failures < FAILURES_TO_SWAP) return;
    [preferred, other] = [other, preferred];
    failures = 0;
  };

  return {
    say: oneAtATime((text, told) => {
      const [one, two] = [preferred, other];
      let cancelled = false;
      let silence: Cancel | null = null;
      const speak = (voice: Voice, unable: () => void) =>
        voice.say(text, {
          started: told.started,
          ended(how) {
            if (cancelled) return;
            if (how === 'failed') return unable();
            if (voice === preferred) [failures, proven] = [0, true];
            told.ended('spoken');
          },
        });
      const cancelOne = speak(one, () => {
        failed();
        silence = speak(two, () => told.ended('failed'));
      });
      silence ??= cancelOne;
      return () => {
        cancelled = true;
        silence?.();
      };
    }),
    prepare(texts) {
      preferred.prepare(texts);
      if (!proven) other.prepare(texts);
    },
    adjust(change) {
      first.adjust(change);
      then.adjust(change);
    },
    duck(isDucked) {
      first.duck(isDucked);
      then.duck(isDucked);
    },
  };
};
