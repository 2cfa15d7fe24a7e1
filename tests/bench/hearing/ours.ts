import * as onnx from 'onnxruntime-web';
import { wordsOf } from '../../../src/cues/grammarWords';
import { grammarOf } from '../../../src/domain/hearing/building';
import type { Grammar } from '../../../src/domain/hearing/grammar';
import type { CueBook, PromptId } from '../../../src/domain/script';
import { FRAME, type Detector } from '../../../src/ear/detecting';
import { lexiconFor } from '../../../src/ear/lexicon';
import type { WholeRecogniser } from '../../../src/ear/haltWatch';
import { Listening } from '../../../src/ear/listening';
import {
  nodeDetector,
  nodeQuick,
  nodeRecogniser,
  readerOf,
  type EarSize,
} from '../../../src/ear/node';
import type { Runtime } from '../../../src/ear/phoneReader';
import { createRecogniser, type Recogniser } from '../../../src/ear/recognising';
import { URGENT } from '../../../src/ear/urgent';
import type { BenchEar, Heard, Told } from './hearingEar';

const FRAME_SECONDS = FRAME / 16000;

/** The app's own way: detector, segments, looks, recogniser; sound goes in frame by frame. */
export async function oursFor(
  book: CueBook,
  { remembers = true, size = 'strong' }: { remembers?: boolean; size?: EarSize } = {},
): Promise<BenchEar> {
  const recogniser = await (remembers ? rememberingRecogniser(size) : nodeRecogniser(size));
  const detector = rememberingDetector(await nodeDetector());
  const quick = await nodeQuick();
  const lexicon = lexiconFor(wordsOf(book));
  const grammars = new Map<PromptId, Grammar>();
  const grammarAt = (prompt: PromptId) => {
    const grammar = grammars.get(prompt) ?? grammarOf(book, prompt);
    grammars.set(prompt, grammar);
    return grammar;
  };
  return {
    name: size === 'small' ? 'ours, log-mel alone' : 'ours',
    hear: async (sound, prompt) => {
      const told: Told[] = [];
      const lookMilliseconds: number[] = [];
      const timed: WholeRecogniser & Recogniser = {
        ...recogniser,
        isSmall: size === 'small',
        look: async (...asked) => {
          const began = performance.now();
          const look = await recogniser.look(...asked);
          lookMilliseconds.push(performance.now() - began);
          return look;
        },
      };
      let stoppedAt: Heard['stoppedAt'] = 'no speech noticed';
      let began = 0;
      let busyUntil = 0;
      let heardSeconds = 0;
      const listening = new Listening({
        recogniser: timed,
        quick,
        detector: detector.over(sound),
        lexicon,
        urgent: new Set(URGENT),
        tell: (hearing) => {
          if (hearing.type === 'so-far') return;
          stoppedAt = hearing.type === 'onset' ? 'speech never ended' : 'no reply fits';
          if (hearing.type !== 'words') return;
          const atSeconds = busyUntil + (performance.now() - began) / 1000;
          told.push({
            text: hearing.text,
            confidence: hearing.confidence,
            atSeconds,
            heardSeconds,
          });
        },
      });
      listening.attend(grammarAt(prompt));
      await recogniser.hear(new Float32Array(1600), grammarAt(prompt), lexicon);
      for (let at = 0; at + FRAME <= sound.length; at += FRAME) {
        heardSeconds = at / 16000 + FRAME_SECONDS;
        busyUntil = Math.max(busyUntil, heardSeconds);
        began = performance.now();
        await listening.push(sound.subarray(at, at + FRAME));
        busyUntil += (performance.now() - began) / 1000;
      }
      return { told, lookMilliseconds, ...(told.length === 0 && { stoppedAt }) };
    },
  };
}

/** The detector from its start, and from memory where the same sound is heard at another prompt. */
function rememberingDetector(detector: Detector) {
  let sound: Float32Array | null = null;
  let known: number[] = [];
  return {
    over: (next: Float32Array): Detector => {
      if (next !== sound) {
        sound = next;
        known = [];
        detector.reset();
      }
      let at = 0;
      return {
        speech: async (frame) => (known[at++] ??= await detector.speech(frame)),
        reset: () => undefined,
      };
    },
  };
}

type Result = Promise<onnx.InferenceSession.ReturnType>;
const REMEMBERED = 600;

/**
 * The recogniser over a runtime that remembers what the models gave for a sound: at the second
 * prompt the same looks cost no more than their scoring.
 */
async function rememberingRecogniser(size: EarSize): Promise<Recogniser> {
  const remembering = (session: onnx.InferenceSession) => {
    const bySound = new Map<string, Result>();
    const byStates = new WeakMap<object, Result>();
    return {
      inputNames: session.inputNames,
      run: (feeds: Record<string, onnx.Tensor>) => {
        const { x: states, ...sounds } = feeds;
        const key = states ? '' : Object.values(sounds).map(hashOf).join();
        const known = states ? byStates.get(states) : bySound.get(key);
        if (known) return known;
        const result = session.run(feeds);
        if (states) byStates.set(states, result);
        else bySound.set(key, result);
        const [oldest] = bySound.keys();
        if (bySound.size > REMEMBERED && oldest !== undefined) bySound.delete(oldest);
        return result;
      },
    };
  };
  const runtime = {
    env: onnx.env,
    Tensor: onnx.Tensor,
    InferenceSession: {
      create: async (model: Uint8Array) => remembering(await onnx.InferenceSession.create(model)),
    },
  } as unknown as Runtime;
  return createRecogniser(await readerOf(size, runtime));
}

/** FNV-1a over the samples' bits. */
function hashOf(tensor: onnx.Tensor): string {
  const samples = tensor.data as Float32Array;
  let hash = 0x811c9dc5;
  for (const bits of new Uint32Array(samples.buffer, samples.byteOffset, samples.length))
    hash = Math.imul(hash ^ bits, 0x01000193);
  return `${samples.length}:${hash >>> 0}`;
}
