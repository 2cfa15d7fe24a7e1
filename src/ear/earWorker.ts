import type { Grammar } from '../domain/hearing/grammar';
import { FileMissingError } from '../offline/fetching';
import type { EarTrouble, Hearing } from '../ports';
import { LevelMeter } from './levels';
import { Listening } from './listening';
import type { EarParts } from './loading';
import type { FromEarWorker, ToEarWorker } from './messages';
import { createRecogniser, type OpenRecogniser } from './recognising';
import { Resampler } from './resampling';
import { COMBINED_SILENCE_SECONDS } from './segmenting';
import { TRIAL_SOUND, type WhySmall } from './sizes';
import {
  startStrong,
  type StrongRecogniser,
  type StrongWorkerHandle,
  type Wait,
} from './strong/strongRecogniser';

/** The detector hears speech for so long after its end, and the resampler holds some back. */
const LAG_SECONDS = 0.5;

/**
 * All that the worker does, apart from where its messages and models come from, so that it also
 * runs in Node. Returns what takes its messages.
 */
export function earWorker(outside: {
  tell: (message: FromEarWorker) => void;
  load: (assetsBase: string, progress: (fraction: number) => void) => Promise<EarParts>;
  /** Starts the worker of the strong ear. */
  startStrong: () => StrongWorkerHandle;
  wait: Wait;
  /** Lets messages in that have come meanwhile. */
  breathe?: () => Promise<void>;
}): (message: ToEarWorker) => void {
  const { tell, load, breathe } = outside;
  const grammars = new Map<string, Grammar>();
  const levels = new LevelMeter();
  let listening: Listening | null = null;
  let attended: Grammar | null = null;
  let first: OpenRecogniser | null = null;
  let strong: StrongRecogniser | null = null;
  let quickly: OpenRecogniser | null = null;
  let fitting: Extract<ToEarWorker, { type: 'fit' }> | null = null;
  let utterance = 0;
  let microphone: MessagePort | null = null;
  let resampler: { sampleRate: number; resampler: Resampler } | null = null;
  /** Waits for a moment in which nobody is speaking. */
  let between: (() => void) | null = null;

  const fail = (problem: unknown, why: EarTrouble) =>
    tell({ type: 'failed', why, detail: String(problem) });

  /** Sound of a recording that is still heard: sooner than it would be spoken. */
  let recorded = 0;

  const hear = async (samples: Float32Array, sampleRate: number) => {
    if (listening === null) return;
    if (resampler?.sampleRate !== sampleRate)
      resampler = { sampleRate, resampler: new Resampler(sampleRate) };
    await listening
      .push(resampler.resampler.push(samples))
      .then(runBetween)
      .catch((problem: unknown) => fail(problem, 'worker-failed'));
  };

  const runBetween = () => {
    if (between === null || listening?.open === true) return;
    const run = between;
    between = null;
    run();
  };
  /** Once no reply is being spoken: at once where none is. */
  const betweenReplies = () =>
    new Promise<void>((resolve) => {
      between = resolve;
      runBetween();
    });

  const fit = () => {
    if (fitting === null) return;
    first?.fit(fitting.coach);
    strong?.fit(fitting.coach);
    quickly?.fit(fitting.coach);
    listening?.sayBy(fitting.lexicon);
  };

  const start = async (message: Extract<ToEarWorker, { type: 'start' }>) => {
    const parts = await load(message.assetsBase, (fraction) => tell({ type: 'loading', fraction }));
    const small = createRecogniser(parts.reader);
    first = small;
    const quick = parts.size === 'small' ? createRecogniser(parts.reader, 1) : null;
    quickly = quick;
    /** Hears in the place of the small one, once it is there and between two replies. */
    let better: StrongRecogniser | null = null;
    listening = new Listening({
      recogniser: {
        // Of a look that it took with it the small one makes what it can.
        look: (...asked) =>
          better?.look(...asked).catch(() => small.look(...asked)) ?? small.look(...asked),
        get isApart() {
          return better !== null;
        },
        get isSmall() {
          return better === null;
        },
      },
      ...(quick && { quick }),
      ...(breathe && { breathe }),
      detector: parts.detector,
      lexicon: message.lexicon,
      urgent: new Set(message.urgent),
      tell: (hearing) => {
        if (hearing.type === 'onset') utterance += 1;
        tell({ type: 'heard', utterance, hearing: recorded > 0 ? withoutTime(hearing) : hearing });
      },
      measure: (frame, speech) => {
        const report = levels.push(frame, speech);
        if (report !== null) tell({ type: 'level', report });
      },
    });
    fit();
    if (attended !== null) listening.attend(attended);
    tell({ type: 'ready' });
    tell({ type: 'hears-with', size: parts.size, why: null });
    if (parts.size === 'strong') return;

    const join = async (joining: StrongRecogniser) => {
      strong = joining;
      if (fitting !== null) joining.fit(fitting.coach);
      // The first look of all takes the longest: nobody shall wait for it.
      const lexicon = { ...message.lexicon, ...fitting?.lexicon };
      if (attended !== null) await joining.look(TRIAL_SOUND, attended, lexicon).catch(() => null);
      await betweenReplies();
      if (strong === null) return;
      better = strong;
      tell({ type: 'hears-with', size: 'strong', why: null });
    };
    const told = {
      ready: () => void join(growing),
      gone: (why: WhySmall) => {
        strong = null;
        better = null;
        tell({ type: 'hears-with', size: 'small', why });
      },
    };
    const { assetsBase } = message;
    const growing = startStrong(outside.startStrong(), assetsBase, told, outside.wait);
  };

  return (message) => {
    switch (message.type) {
      case 'start':
        start(message).catch((problem: unknown) =>
          fail(problem, problem instanceof FileMissingError ? 'model-missing' : 'worker-failed'),
        );
        return;
      case 'attend':
        if (message.grammar !== null) grammars.set(message.prompt, message.grammar);
        attended = grammars.get(message.prompt) ?? attended;
        if (attended !== null) listening?.attend(attended);
        return;
      case 'fit':
        fitting = message;
        grammars.clear();
        return fit();
      case 'microphone':
        // The one before it may still have something to say.
        microphone?.close();
        listening?.forgetLoudness();
        microphone = message.port;
        microphone.onmessage = ({ data }: MessageEvent<Float32Array>) =>
          void hear(data, message.sampleRate);
        return;
      case 'sound': {
        recorded += 1;
        void hear(message.samples, message.sampleRate);
        const silence = (COMBINED_SILENCE_SECONDS + LAG_SECONDS) * message.sampleRate;
        void hear(new Float32Array(Math.ceil(silence)), message.sampleRate).then(() => {
          recorded -= 1;
        });
      }
    }
  };
}

/** Of a recording seconds of the sound are none of the clock: by them an answer began before its question. */
function withoutTime(hearing: Hearing): Hearing {
  if (hearing.type !== 'words') return hearing;
  const words = { ...hearing };
  delete words.beganSecondsAgo;
  return words;
}
