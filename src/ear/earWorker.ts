import type { Grammar } from '../domain/hearing/grammar';
import type { EarTrouble } from '../ports';
import type { Detector } from './detecting';
import { LevelMeter } from './levels';
import { Listening } from './listening';
import type { FromEarWorker, ToEarWorker } from './messages';
import type { Recogniser } from './recognising';
import { Resampler } from './resampling';
import { COMBINED_SILENCE_SECONDS } from './segmenting';

/** A model or the runtime did not arrive as what it should be. */
export class ModelMissingError extends Error {
  override name = 'ModelMissingError';
}

/** What the worker needs to hear with. */
export interface EarParts {
  recogniser: Recogniser;
  detector: Detector;
}

/**
 * All that the worker does, apart from where its messages and models come from, so that it also
 * runs in Node. Returns what takes its messages.
 */
export function earWorker(outside: {
  tell: (message: FromEarWorker) => void;
  load: (assetsBase: string, progress: (fraction: number) => void) => Promise<EarParts>;
}): (message: ToEarWorker) => void {
  const { tell, load } = outside;
  const grammars = new Map<string, Grammar>();
  const levels = new LevelMeter();
  let listening: Listening | null = null;
  let attended: Grammar | null = null;
  let utterance = 0;
  let resampler: { sampleRate: number; resampler: Resampler } | null = null;

  const fail = (problem: unknown, why: EarTrouble) =>
    tell({ type: 'failed', why, detail: String(problem) });

  const hear = (samples: Float32Array, sampleRate: number) => {
    if (listening === null) return;
    if (resampler?.sampleRate !== sampleRate)
      resampler = { sampleRate, resampler: new Resampler(sampleRate) };
    listening
      .push(resampler.resampler.push(samples))
      .catch((problem: unknown) => fail(problem, 'worker-failed'));
  };

  const start = async (message: Extract<ToEarWorker, { type: 'start' }>) => {
    const parts = await load(message.assetsBase, (fraction) => tell({ type: 'loading', fraction }));
    listening = new Listening({
      ...parts,
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
    if (attended !== null) listening.attend(attended);
    tell({ type: 'ready' });
  };

  return (message) => {
    switch (message.type) {
      case 'start':
        start(message).catch((problem: unknown) =>
          fail(problem, problem instanceof ModelMissingError ? 'model-missing' : 'worker-failed'),
        );
        return;
      case 'attend':
        if (message.grammar !== null) grammars.set(message.prompt, message.grammar);
        attended = grammars.get(message.prompt) ?? attended;
        if (attended !== null) listening?.attend(attended);
        return;
      case 'microphone':
        message.port.onmessage = ({ data }: MessageEvent<Float32Array>) =>
          hear(data, message.sampleRate);
        return;
      case 'sound': {
        hear(message.samples, message.sampleRate);
        // The silence that ends a reply, and the resampler's lag.
        const silence = (COMBINED_SILENCE_SECONDS + 0.1) * message.sampleRate;
        hear(new Float32Array(Math.ceil(silence)), message.sampleRate);
      }
    }
  };
}
