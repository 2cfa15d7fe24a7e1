import type { Cancel, Clock, Voice } from '../ports';
import { voicesOf } from './choosing';
import { estimatedSeconds, sharedManner, type SharedManner } from './manner';
import { oneAtATime, type Told } from './oneAtATime';
import { measuredPaces, USUAL_WORDS_PER_MINUTE, type Paces } from './pace';

export interface BrowserVoiceOptions {
  /** The browser's synthesiser (`window.speechSynthesis`), undefined where it has none. */
  synthesis: SpeechSynthesis | undefined;
  clock: Clock;
  /** The language of the lines, as a tag such as `en`; only its voices are used. */
  language: string;
  /** Shared with whatever speaks beside it; its own where left out. */
  manner?: SharedManner;
  /** What is known of how fast voices speak; learnt anew where left out. */
  paces?: Paces;
  /** The `voiceURI` of the voice that was chosen; null, or one that is gone: the best. */
  chosen?: () => string | null;
  /** Makes an utterance; the browser's own by default. */
  utter?: (text: string) => SpeechSynthesisUtterance;
}

/** Voices have been seen to arrive 2 to 3 s after loading. */
const VOICES_WAIT_MS = 3000;
const START_WAIT_MS = 1000;
/** A cancelled utterance ends in `end`, in `error`, or not at all; then this is waited. */
const CANCEL_WAIT_MS = 100;

/**
 * Speaks with a voice of the browser, on the device only: a voice that needs a network sends the
 * lines away and breaks off without one. A line fails where no voice of the language has come
 * 3 s after creation, on any error, without a start in 1 s, and without an end in twice the
 * estimated time; each failure silences the browser, so that another voice can say the line. A
 * line that the browser pauses by itself is said again from its start, once.
 * Before the first line there must have been a tap.
 */
export const createBrowserVoice = ({
  synthesis,
  clock,
  language,
  manner = sharedManner(),
  paces = measuredPaces(),
  chosen = () => null,
  utter = (text) => new SpeechSynthesisUtterance(text),
}: BrowserVoiceOptions): Voice => {
  const createdAt = clock.now();
  // A page that was loaded again can inherit the line it was saying.
  synthesis?.cancel();
  /** The utterance that sounds or is being cancelled: a reference that keeps it alive. */
  let current: SpeechSynthesisUtterance | null = null;

  const voiceOf = (): SpeechSynthesisVoice | null => {
    const voices = synthesis === undefined ? [] : voicesOf(synthesis.getVoices(), language);
    return voices.find(({ voiceURI }) => voiceURI === chosen()) ?? voices[0] ?? null;
  };

  /** Runs `then` with a voice as soon as there is one, or with null when the wait is over. */
  const whenVoices = (then: (voice: SpeechSynthesisVoice | null) => void): Cancel => {
    const found = voiceOf();
    const left = createdAt + VOICES_WAIT_MS - clock.now();
    if (synthesis === undefined || (found === null && left <= 0)) return soon(() => then(null));
    if (found !== null) {
      // At once: a phone lets the first line sound only inside the tap.
      then(found);
      return () => undefined;
    }
    const look = () => {
      const late = voiceOf();
      if (late !== null) settle(late);
    };
    const settle = (voice: SpeechSynthesisVoice | null) => {
      stop();
      then(voice);
    };
    const timer = clock.setTimeout(() => settle(voiceOf()), left);
    const stop = () => {
      clock.clearTimeout(timer);
      synthesis.removeEventListener('voiceschanged', look);
    };
    synthesis.addEventListener('voiceschanged', look);
    return stop;
  };

  const soon = (run: () => void): Cancel => {
    const timer = clock.setTimeout(run, 0);
    return () => clock.clearTimeout(timer);
  };

  /** Runs `then` once nothing sounds: an utterance right after a cancel can be swallowed. */
  const whenQuiet = (then: () => void): Cancel => {
    const last = current;
    if (last === null) {
      then();
      return () => undefined;
    }
    const quiet = () => {
      stop();
      if (current === last) current = null;
      then();
    };
    const timer = clock.setTimeout(quiet, CANCEL_WAIT_MS);
    const stop = () => {
      clock.clearTimeout(timer);
      last.removeEventListener('end', quiet);
      last.removeEventListener('error', quiet);
    };
    last.addEventListener('end', quiet);
    last.addEventListener('error', quiet);
    return stop;
  };

  /** Speaks a line; one that the engine pauses by itself is silenced and said again, once. */
  const speak = (
    engine: SpeechSynthesis,
    voice: SpeechSynthesisVoice,
    text: string,
    told: Told,
  ): Cancel => {
    const cancels: Cancel[] = [];
    const again = () => {
      const once = () =>
        cancels.push(speakOnce(engine, voice, text, told, () => told.ended('failed')));
      cancels.push(whenQuiet(once));
    };
    cancels.push(speakOnce(engine, voice, text, told, again));
    return () => cancels.forEach((cancel) => cancel());
  };

  const speakOnce = (
    engine: SpeechSynthesis,
    voice: SpeechSynthesisVoice,
    text: string,
    told: Told,
    paused: () => void,
  ): Cancel => {
    const utterance = utter(text);
    utterance.voice = voice;
    utterance.lang = voice.lang || language;
    utterance.volume = manner.now().volume;
    const wordsPerMinute = USUAL_WORDS_PER_MINUTE / manner.now().stretch;
    utterance.rate = paces.rateFor(voice.voiceURI, wordsPerMinute);
    let startedAtMilliseconds: number | null = null;
    let open = true;
    let watchdog: unknown = null;
    const watch = (milliseconds: number) => {
      if (watchdog !== null) clock.clearTimeout(watchdog);
      watchdog = clock.setTimeout(fail, milliseconds);
    };
    const gone = () => {
      if (current === utterance) current = null;
    };
    const close = () => {
      open = false;
      if (watchdog !== null) clock.clearTimeout(watchdog);
    };
    const silence = () => {
      if (!open) return;
      close();
      engine.cancel();
      clock.setTimeout(gone, CANCEL_WAIT_MS);
    };
    const fail = () => {
      silence();
      told.ended('failed');
    };
    utterance.addEventListener('start', () => {
      if (!open) return;
      startedAtMilliseconds = clock.now();
      watch(2000 * estimatedSeconds(text, manner.now()));
      told.started();
    });
    utterance.addEventListener('end', () => {
      gone();
      if (!open) return;
      close();
      if (startedAtMilliseconds !== null) {
        const seconds = (clock.now() - startedAtMilliseconds) / 1000;
        paces.spoke(voice.voiceURI, text, seconds, utterance.rate);
      }
      told.started();
      told.ended('spoken');
    });
    utterance.addEventListener('pause', () => {
      if (!open) return;
      // What is paused does not always resume.
      silence();
      paused();
    });
    utterance.addEventListener('error', () => {
      gone();
      if (open) fail();
    });
    current = utterance;
    watch(START_WAIT_MS);
    try {
      engine.resume();
      engine.speak(utterance);
    } catch {
      gone();
      fail();
    }
    return silence;
  };

  return {
    say: oneAtATime((text, told) => {
      if (text.trim() === '') return soon(() => told.ended('spoken'));
      const cancels: Cancel[] = [];
      const voices = whenVoices((voice) => {
        if (synthesis === undefined || voice === null) return told.ended('failed');
        const quiet = whenQuiet(() => cancels.push(speak(synthesis, voice, text, told)));
        cancels.push(quiet);
      });
      cancels.push(voices);
      return () => cancels.forEach((cancel) => cancel());
    }),
    prepare: () => undefined,
    adjust: manner.adjust,
    // A line that sounds keeps its volume; browsers take a new one only for the next.
    duck: () => undefined,
  };
};
