import { vi } from 'vitest';

/** Each way in which a browser's synthesiser has been seen to misbehave. */
export interface Rudeness {
  /** When the voices come, ms after creation; Infinity: never. */
  voicesAfterMs?: number;
  /** The voices it has; one English voice on the device by default. */
  voices?: Partial<SpeechSynthesisVoice>[];
  failsAtOnce?: string;
  throws?: boolean;
  neverStarts?: boolean;
  neverEnds?: boolean;
  endsTwice?: boolean;
  /** How a cancelled utterance ends; `nothing`: not at all. */
  cancelEnds?: 'error' | 'end' | 'nothing';
  /** Time from a cancel to its end; what is spoken in between is swallowed. */
  cancelTakesMs?: number;
  /** It was left paused by the page before. */
  paused?: boolean;
  /**
   * It pauses by itself in the middle of a line, the first so many times, and says so or not.
   * Only a cancel, then `resume`, lets it speak again.
   */
  pausesMidLine?: { times: number; says: boolean };
  /** What it speaks is thrown away where the page holds no reference to it, and then never ends. */
  collects?: () => void;
  /** How long it takes for a word at rate 1; 0.4 by default. */
  secondsAWord?: number;
}

export interface Sounding {
  text: string;
  volume: number;
  /** How long the line will have taken. */
  seconds: number;
}

class Utterance extends EventTarget {
  voice: SpeechSynthesisVoice | null = null;
  lang = '';
  volume = 1;
  rate = 1;
  pitch = 1;
  readonly text: string;
  constructor(text: string) {
    super();
    this.text = text;
  }
}

const PAUSE_TO_START_MS = 20;
const PAUSES_AFTER_MS = 500;

/** A synthesiser that is as rude as it is told to be. */
export const rudeSynthesis = (rudeness: Rudeness = {}) => {
  const said: Utterance[] = [];
  let sounding: { utterance: Utterance; since: number } | null = null;
  let timers: ReturnType<typeof setTimeout>[] = [];
  let swallowsUntil = 0;
  let paused = rudeness.paused ?? false;
  let pausesLeft = rudeness.pausesMidLine?.times ?? 0;
  /** It paused in the middle of a line that was not cancelled yet. */
  let stuck = false;
  const events = new EventTarget();
  const createdAt = Date.now();
  const here = () => Date.now() - createdAt >= (rudeness.voicesAfterMs ?? 0);
  if (rudeness.voicesAfterMs !== undefined && Number.isFinite(rudeness.voicesAfterMs)) {
    setTimeout(() => events.dispatchEvent(new Event('voiceschanged')), rudeness.voicesAfterMs);
  }
  const tell = (utterance: Utterance, type: string, error?: string) =>
    utterance.dispatchEvent(Object.assign(new Event(type), { error }));
  const later = (run: () => void, ms: number) => timers.push(setTimeout(run, ms));
  const secondsOf = ({ text, rate }: Utterance) =>
    (text.split(' ').length * (rudeness.secondsAWord ?? 0.4)) / rate;

  const speak = (utterance: Utterance) => {
    if (rudeness.throws) throw new Error('not allowed here');
    if (rudeness.collects !== undefined) return speakCollected(new WeakRef(utterance));
    said.push(utterance);
    if (Date.now() < swallowsUntil || paused || stuck) return;
    const { failsAtOnce } = rudeness;
    if (failsAtOnce !== undefined) {
      later(() => tell(utterance, 'error', failsAtOnce), 1);
      return;
    }
    if (rudeness.neverStarts) return;
    later(() => {
      sounding = { utterance, since: Date.now() };
      tell(utterance, 'start');
      if (rudeness.neverEnds) return;
      if (pausesLeft > 0) {
        pausesLeft -= 1;
        later(() => {
          stuck = true;
          sounding = null;
          if (rudeness.pausesMidLine?.says) tell(utterance, 'pause');
        }, PAUSES_AFTER_MS);
        return;
      }
      later(
        () => {
          sounding = null;
          tell(utterance, 'end');
          if (rudeness.endsTwice) tell(utterance, 'end');
        },
        1000 * secondsOf(utterance),
      );
    }, PAUSE_TO_START_MS);
  };
  /** As `speak`, holding nothing of what it speaks but its words and how they sound. */
  const speakCollected = (held: WeakRef<Utterance>) => {
    const at = (run: (utterance: Utterance) => void) => () => {
      rudeness.collects?.();
      const utterance = held.deref();
      if (utterance !== undefined) run(utterance);
    };
    const start = at((utterance) => {
      const { text, volume, rate } = utterance;
      const seconds = secondsOf(utterance);
      sounding = { utterance: Object.assign(new Utterance(text), { volume, rate }), since: 0 };
      tell(utterance, 'start');
      const end = at((ended) => tell(ended, 'end'));
      later(() => {
        sounding = null;
        end();
      }, 1000 * seconds);
    });
    later(start, PAUSE_TO_START_MS);
  };
  const cancel = () => {
    stuck = false;
    for (const timer of timers) clearTimeout(timer);
    timers = [];
    const last = sounding?.utterance;
    sounding = null;
    const { cancelEnds = 'error', cancelTakesMs = 0 } = rudeness;
    if (last === undefined) return;
    swallowsUntil = Date.now() + cancelTakesMs;
    if (cancelEnds === 'nothing') return;
    setTimeout(() => tell(last, cancelEnds, 'canceled'), cancelTakesMs);
  };
  const voices = (rudeness.voices ?? [{}]).map((voice) => ({
    name: 'Device English',
    lang: 'en-GB',
    localService: true,
    default: true,
    voiceURI: 'device',
    ...voice,
  }));
  const cancelled = vi.fn(cancel);
  const synthesis = Object.assign(events, {
    getVoices: () => (here() ? voices : []),
    speak: (utterance: unknown) => speak(utterance as Utterance),
    cancel: cancelled,
    resume: () => (paused = false),
    pause: () => (paused = true),
  }) as unknown as SpeechSynthesis;

  return {
    synthesis,
    utter: (text: string) => new Utterance(text) as unknown as SpeechSynthesisUtterance,
    said,
    cancelled,
    sounding: (): Sounding | null =>
      sounding && {
        text: sounding.utterance.text,
        volume: sounding.utterance.volume,
        seconds: secondsOf(sounding.utterance),
      },
  };
};
