import { beforeAll, describe, expect, test } from 'vitest';
import type { Detector } from '../../src/ear/detecting';
import { Listening } from '../../src/ear/listening';
import { nodeDetector, nodeQuick, nodeRecogniser } from '../../src/ear/node';
import type { Look, Recogniser } from '../../src/ear/recognising';
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

let parts: { recogniser: Recogniser; quick: Recogniser; detector: Detector };
beforeAll(async () => {
  parts = {
    recogniser: await nodeRecogniser(),
    quick: await nodeQuick(),
    detector: await nodeDetector(),
  };
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

const YES = { text: 'yes', confidence: 0.9, following: 'nothing' as const };

/** Loud is speech; what a look makes of so many seconds is given. */
function lookingBy(look: (seconds: number) => Look) {
  const heard: Hearing[] = [];
  const listening = new Listening({
    detector: { speech: async (frame) => (frame[0]! > 0.1 ? 1 : 0), reset: () => undefined },
    recogniser: { look: async (sound) => look(sound.length / 16000) },
    lexicon,
    urgent: new Set(),
    tell: (hearing) => heard.push(hearing),
  });
  listening.attend(SINGLE);
  return { listening, heard };
}

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
    // Whatever is short was "yes".
    const { listening, heard } = lookingBy((seconds) => ({
      heard: seconds < 3 ? { ...YES, spokenSeconds: 0.3, silenceSeconds: 0.35 } : null,
      talk: { beganSeconds: seconds, endedSeconds: 0 },
    }));
    const talk = (seconds: number) => new Float32Array(seconds * 16000).fill(0.5);
    await listening.push(joined(talk(12.2), new Float32Array(16000)));
    expect(heard.map(({ type }) => type)).toEqual(['onset', 'nothing']);
    await listening.push(joined(talk(1), new Float32Array(16000)));
    expect(heard.slice(2).map(({ type }) => type)).toEqual(['onset', 'words']);
  });

  test('a look that loses the phones of the look before forgets no words', async () => {
    let looks = 0;
    const { listening, heard } = lookingBy((seconds) => {
      looks += 1;
      return {
        heard: seconds > 2.5 ? { ...YES, spokenSeconds: 2, silenceSeconds: 0.35 } : null,
        talk: looks === 5 ? null : { beganSeconds: seconds, endedSeconds: 0 },
      };
    });
    const sound = joined(new Float32Array(48000).fill(0.5), new Float32Array(16000));
    for (let at = 0; at < sound.length; at += 512) await listening.push(sound.slice(at, at + 512));
    expect(looks).toBeGreaterThan(5);
    expect(heard.map(({ type }) => type)).toEqual(['onset', 'words']);
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

  test('a "stop" that is half heard when it has just begun is looked for until it is known', async () => {
    const told: string[] = [];
    let now = 0;
    const listening = new Listening({
      detector: { speech: async (frame) => (frame[0]! > 0.1 ? 1 : 0), reset: () => undefined },
      recogniser: {
        look: async ({ length }) => ({
          heard: null,
          talk: { beganSeconds: length / 16000, endedSeconds: 0 },
        }),
      },
      quick: {
        ...parts.quick,
        look: async () => {
          const confidence = now < 1.4 ? 0.05 : 0.9;
          const stop = { text: 'stop', confidence, following: 'nothing' as const };
          const heard = { ...stop, spokenSeconds: 0.3, silenceSeconds: 0.05 };
          return { heard: now < 0.9 || told.length > 0 ? null : heard, talk: null };
        },
      },
      lexicon,
      urgent: new Set(['stop']),
      tell: (hearing) => hearing.type === 'words' && told.push(hearing.text),
    });
    listening.attend({ ...SINGLE, prompt: 'idle' });
    const sound = new Float32Array(32000).fill(0.5);
    for (let at = 0; at < sound.length; at += 512) {
      now = (at + 512) / 16000;
      await listening.push(sound.slice(at, at + 512));
    }
    expect(told).toEqual(['stop']);
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
