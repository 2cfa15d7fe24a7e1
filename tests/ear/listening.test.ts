import { beforeAll, describe, expect, test } from 'vitest';
import { createDetector } from '../../src/ear/detecting';
import { earWorker, ModelMissingError, type EarParts } from '../../src/ear/earWorker';
import { Listening } from '../../src/ear/listening';
import type { FromEarWorker } from '../../src/ear/messages';
import { nodeDetector, nodeRecogniser } from '../../src/ear/node';
import { URGENT } from '../../src/ear/urgent';
import type { Hearing } from '../../src/ports';
import { lexiconOf, phrases } from './grammars';
import { NOISES, randomFrom } from './noises';
import { joined, padded, spoken } from './speech';

const SINGLE = phrases('confirm', [
  'yes',
  'no',
  'stop',
  'pause',
  "don't stop",
  'pain',
  'pain seven',
]);
const COMBINED = {
  prompt: 'check/hinge-unloaded',
  states: 3,
  finals: [1, 2],
  arcs: ['left', 'knees forward', 'back rounded', 'lost', 'stop'].flatMap((words) => [
    { from: 0, to: 1, words },
    { from: 1, to: 2, words },
  ]),
};
const lexicon = lexiconOf(SINGLE, COMBINED);

let parts: EarParts;
beforeAll(async () => {
  parts = { recogniser: await nodeRecogniser(), detector: await nodeDetector() };
});

/** Hearings of a stretch of sound, each with the second at which it was told. */
async function heardIn(sound: Float32Array, grammar: typeof COMBINED = SINGLE) {
  const heard: { at: number; hearing: Hearing }[] = [];
  let at = 0;
  parts.detector.reset();
  const listening = new Listening({
    ...parts,
    lexicon,
    urgent: new Set(URGENT),
    tell: (hearing) => heard.push({ at, hearing }),
  });
  listening.attend(grammar);
  // As a microphone brings it, each piece worked through before the next.
  for (let start = 0; start < sound.length; start += 512) {
    at = (start + 512) / 16000;
    await listening.push(sound.slice(start, start + 512));
  }
  return heard;
}
const wordsIn = (heard: { hearing: Hearing }[]) =>
  heard.flatMap(({ hearing }) => (hearing.type === 'words' ? [hearing.text] : []));
const whenWords = (heard: { at: number; hearing: Hearing }[]) =>
  heard.find(({ hearing }) => hearing.type === 'words')!.at;
const secondsOf = (sound: Float32Array) => sound.length / 16000;

describe('a stretch of sound', () => {
  test('speech is noticed while it lasts, and told 0.3 s after its end', async () => {
    const said = await spoken('yes', { before: 1, after: 0 });
    const heard = await heardIn(padded(said, 0, 2));
    expect(heard.map(({ hearing }) => hearing.type)).toEqual(['onset', 'words']);
    expect(heard[0]!.at).toBeLessThan(secondsOf(said));
    expect(whenWords(heard) - secondsOf(said)).toBeLessThan(0.45);
  });

  test('two replies with a pause between them are two', async () => {
    const sound = joined(await spoken('yes', { after: 0.9 }), await spoken('no', { after: 1 }));
    expect(wordsIn(await heardIn(sound))).toEqual(['yes', 'no']);
  });

  test('a reply that can go on is waited for over half a second of silence', async () => {
    const sound = joined(
      await spoken('left', { before: 0.5, after: 0.45 }),
      await spoken('knees forward', { before: 0, after: 1.2 }),
    );
    expect(wordsIn(await heardIn(sound, COMBINED))).toEqual(['left knees forward']);
  });

  test('other talk is noticed and comes to nothing', async () => {
    const sound = await spoken('what time do you finish today', { before: 0.5, after: 1.2 });
    const heard = await heardIn(sound);
    const kinds = new Set(heard.map(({ hearing }) => hearing.type));
    expect(kinds.has('nothing')).toBe(true);
    expect(
      heard.every(({ hearing }) => hearing.type !== 'words' || hearing.confidence < 0.25),
    ).toBe(true);
  });

  test('talk that never ends comes to nothing, and the next reply is heard', async () => {
    const heard: Hearing[] = [];
    const listening = new Listening({
      // Loud is speech, and whatever is short was "yes".
      detector: { speech: async (frame) => (frame[0]! > 0.1 ? 1 : 0), reset: () => undefined },
      recogniser: {
        hear: async (sound) =>
          sound.length < 3 * 16000 ? { text: 'yes', confidence: 0.9, canGoOn: false } : null,
        weigh: async () => null,
      },
      lexicon,
      urgent: new Set(),
      tell: (hearing) => heard.push(hearing),
    });
    listening.attend(SINGLE);
    const talk = (seconds: number) => new Float32Array(seconds * 16000).fill(0.5);
    await listening.push(joined(talk(12.2), new Float32Array(16000)));
    expect(heard.map(({ type }) => type)).toEqual(['onset', 'nothing']);
    await listening.push(joined(talk(1), new Float32Array(16000)));
    expect(heard.slice(2).map(({ type }) => type)).toEqual(['onset', 'words']);
  });

  test('three seconds of pink noise are no words', async () => {
    const noise = NOISES[0]!.make(48000, randomFrom(1)).map((sample) => sample * 0.05);
    expect(wordsIn(await heardIn(noise))).toEqual([]);
  });
});

describe('urgent words', () => {
  test.each(['stop', 'pause'])('"%s" is told before the silence after it is over', async (word) => {
    const said = await spoken(word, { before: 1, after: 0 });
    const heard = await heardIn(padded(said, 0, 1.5));
    expect(wordsIn(heard)).toEqual([word]);
    expect(whenWords(heard) - secondsOf(said)).toBeLessThan(0.25);
  });

  test('"stop" is told at once even where more could follow', async () => {
    const said = await spoken('stop', { before: 1, after: 0 });
    const heard = await heardIn(padded(said, 0, 1.5), COMBINED);
    expect(whenWords(heard) - secondsOf(said)).toBeLessThan(0.25);
  });

  test('"don\'t stop" is not "stop"', async () => {
    const sound = await spoken("don't stop", { before: 1, after: 1 });
    expect(wordsIn(await heardIn(sound))).toEqual(["don't stop"]);
  });

  test('"pain seven" is told whole', async () => {
    const sound = await spoken('pain seven', { before: 1, after: 1 });
    expect(wordsIn(await heardIn(sound)).at(-1)).toBe('pain seven');
  });
});

describe('the worker', () => {
  const started = async (load: () => Promise<EarParts>) => {
    const told: FromEarWorker[] = [];
    const until = (type: FromEarWorker['type'], test: (message: FromEarWorker) => boolean) =>
      new Promise<FromEarWorker>((resolve) => {
        waiting.push((message) => message.type === type && test(message) && resolve(message));
      });
    const waiting: ((message: FromEarWorker) => unknown)[] = [];
    const handle = earWorker({
      tell: (message) => {
        told.push(message);
        for (const check of waiting) check(message);
      },
      load,
    });
    handle({ type: 'attend', prompt: 'confirm', grammar: SINGLE });
    const begun = Promise.race([until('ready', () => true), until('failed', () => true)]);
    handle({ type: 'start', assetsBase: '/', lexicon, urgent: URGENT });
    await begun;
    return { told, handle, until };
  };

  test('hears a piece at 44.1 kHz at the prompt that was attended before it was ready', async () => {
    parts.detector.reset();
    const { handle, until, told } = await started(() => Promise.resolve(parts));
    const words = until('heard', (m) => m.type === 'heard' && m.hearing.type === 'words');
    const sound = await spoken('yes');
    const stretched = Float32Array.from(
      { length: Math.floor(sound.length * 2.75625) },
      (_, at) => sound[Math.floor(at / 2.75625)] ?? 0,
    );
    handle({ type: 'sound', samples: stretched, sampleRate: 44100 });
    expect(await words).toMatchObject({ hearing: { text: 'yes', prompt: 'confirm' } });
    expect(told.some((message) => message.type === 'level' && message.report.level > 0.3)).toBe(
      true,
    );
  });

  test('says that a model is missing, and why', async () => {
    const { told } = await started(() =>
      Promise.reject(new ModelMissingError('ear/vad.onnx: answered 404')),
    );
    expect(told).toMatchObject([{ type: 'failed', why: 'model-missing' }]);
  });

  test('says that a broken model failed', async () => {
    const { told } = await started(async () => {
      const runtime = await import('onnxruntime-web');
      return { ...parts, detector: await createDetector(runtime, new Uint8Array([1, 2, 3])) };
    });
    expect(told).toMatchObject([{ type: 'failed', why: 'worker-failed' }]);
  });
});
