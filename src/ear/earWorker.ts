import type { Grammar } from '../domain/hearing/grammar';
import { FileMissingError } from '../offline/fetching';
import type { EarTrouble } from '../ports';
import { LevelMeter } from './levels';
import { Listening } from './listening';
import type { EarParts, Stronger } from './loading';
import type { FromEarWorker, ToEarWorker } from './messages';
import { beside } from './phoneReader';
import { createRecogniser, type OpenRecogniser } from './recognising';
import { Resampler } from './resampling';
import { COMBINED_SILENCE_SECONDS } from './segmenting';
import { keepsUp, TRIAL_SOUND, watched, type WhySmall } from './sizes';

/** The detector hears speech for so long after its end, and the resampler holds some back. */
const LAG_SECONDS = 0.5;

/**
 * All that the worker does, apart from where its messages and models come from, so that it also
 * runs in Node. Returns what takes its messages.
 */
export function earWorker(outside: {
  tell: (message: FromEarWorker) => void;
  load: (assetsBase: string, progress: (fraction: number) => void) => Promise<EarParts>;
  /** Seconds, on any clock that only goes on. */
  now: () => number;
  /** Lets messages in that have come meanwhile. */
  breathe?: () => Promise<void>;
}): (message: ToEarWorker) => void {
  const { tell, load, now, breathe } = outside;
  const grammars = new Map<string, Grammar>();
  const levels = new LevelMeter();
  let listening: Listening | null = null;
  let attended: Grammar | null = null;
  let recogniser: OpenRecogniser | null = null;
  let quickly: OpenRecogniser | null = null;
  let fitting: Extract<ToEarWorker, { type: 'fit' }> | null = null;
  let utterance = 0;
  let microphone: MessagePort | null = null;
  let resampler: { sampleRate: number; resampler: Resampler } | null = null;
  /** Waits for a moment in which nobody is speaking. */
  let between: (() => void) | null = null;

  const fail = (problem: unknown, why: EarTrouble) =>
    tell({ type: 'failed', why, detail: String(problem) });

  const hear = (samples: Float32Array, sampleRate: number) => {
    if (listening === null) return;
    if (resampler?.sampleRate !== sampleRate)
      resampler = { sampleRate, resampler: new Resampler(sampleRate) };
    listening
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
    recogniser?.fit(fitting.coach);
    quickly?.fit(fitting.coach);
    listening?.sayBy(fitting.lexicon);
  };

  const start = async (message: Extract<ToEarWorker, { type: 'start' }>) => {
    const parts = await load(message.assetsBase, (fraction) => tell({ type: 'loading', fraction }));
    const hearing = createRecogniser(parts.reader);
    recogniser = hearing;
    const quick = parts.size === 'small' ? createRecogniser(parts.reader, 1) : null;
    quickly = quick;
    listening = new Listening({
      recogniser: hearing,
      ...(quick && { quick }),
      ...(breathe && { breathe }),
      detector: parts.detector,
      lexicon: message.lexicon,
      urgent: new Set(message.urgent),
      tell: (hearing) => {
        if (hearing.type === 'onset') utterance += 1;
        tell({ type: 'heard', utterance, hearing });
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
    if (parts.stronger === null) return;

    const staySmall = async (why: WhySmall) => {
      await betweenReplies();
      hearing.use(parts.reader);
      tell({ type: 'hears-with', size: 'small', why });
    };
    const grow = async (come: Stronger) => {
      if ('why' in come) return staySmall(come.why);
      await betweenReplies();
      const strong = await come.make();
      if (!(await keepsUp(strong, now))) return staySmall('slow');
      await betweenReplies();
      const both = beside(strong, parts.reader);
      if (attended !== null) {
        // The first look of all takes the longest: nobody shall wait for it.
        const first = createRecogniser(both).hear(TRIAL_SOUND, attended, message.lexicon);
        await first.catch(() => null);
        await betweenReplies();
      }
      hearing.use(watched(both, now, () => void staySmall('slow')));
      tell({ type: 'hears-with', size: 'strong', why: null });
    };
    // What cannot be made of a file that came whole is as good as not there.
    parts.stronger.then(grow).catch(() => staySmall('damaged'));
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
          hear(data, message.sampleRate);
        return;
      case 'sound': {
        hear(message.samples, message.sampleRate);
        const silence = (COMBINED_SILENCE_SECONDS + LAG_SECONDS) * message.sampleRate;
        hear(new Float32Array(Math.ceil(silence)), message.sampleRate);
      }
    }
  };
}
