import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { wordsOf } from '../../src/cues/grammarWords';
import { loadBook } from '../../src/cues/fromFolder';
import { grammarOf } from '../../src/domain/hearing/building';
import { ACTS_FROM } from '../../src/ear/confidence';
import { FRAME, type Detector } from '../../src/ear/detecting';
import { lexiconFor } from '../../src/ear/lexicon';
import { Listening } from '../../src/ear/listening';
import { nodeDetector, nodeRecogniser } from '../../src/ear/node';
import type { Recogniser } from '../../src/ear/recognising';
import { URGENT } from '../../src/ear/urgent';
import type { Hearing } from '../../src/ports';
import { babbleOf, spokenPower, withNoise, type NoiseMaker } from '../sounds/surroundings';
import { randomFrom } from './noises';
import { OTHER_TALK } from './otherTalk';
import { COACH_VOICE, joined, SAYSO_VOICE, spoken } from './speech';

const book = loadBook(fileURLToPath(new URL('../../scripts-cues', import.meta.url)), 'en');
const lexicon = lexiconFor(wordsOf(book));
const SIDED = 'check/overhead-passive';
const SIDELESS = 'check/overhead-active-standing';
const HINGE = 'check/hinge-bar';

let parts: { recogniser: Recogniser; detector: Detector };
let babble: NoiseMaker;
beforeAll(async () => {
  const talk = OTHER_TALK.slice(0, 8).map((text, at) =>
    spoken(text, { voice: at % 2 === 0 ? COACH_VOICE : SAYSO_VOICE, before: 0, after: 0 }),
  );
  babble = babbleOf(await Promise.all(talk));
  parts = { recogniser: await nodeRecogniser(), detector: await nodeDetector() };
});

/** All that is told of a stretch of sound, each with the second at which it was told. */
async function heardIn(
  sound: Float32Array,
  prompt: string,
  detector = parts.detector,
  promptBefore = prompt,
) {
  const told: { at: number; hearing: Hearing }[] = [];
  let at = 0;
  detector.reset();
  const listening = new Listening({
    recogniser: parts.recogniser,
    detector,
    lexicon,
    urgent: new Set(URGENT),
    tell: (hearing) => told.push({ at, hearing }),
  });
  listening.attend(grammarOf(book, promptBefore));
  for (let start = 0; start < sound.length; start += FRAME) {
    at = (start + FRAME) / 16000;
    if (start === 62 * FRAME) listening.attend(grammarOf(book, prompt));
    await listening.push(sound.slice(start, start + FRAME));
  }
  return told;
}

const wordsIn = (told: { at: number; hearing: Hearing }[]) =>
  told.flatMap(({ at, hearing }) =>
    hearing.type === 'words' && hearing.confidence >= 0.25 ? [{ at, text: hearing.text }] : [],
  );
const textsIn = (told: { at: number; hearing: Hearing }[]) => wordsIn(told).map(({ text }) => text);
const secondsOf = (sound: Float32Array) => sound.length / 16000;

/** In babble the detector hears speech from the first moment to the last. */
const alwaysSpeech: Detector = { speech: async () => 0.9, reset: () => undefined };

function inBabble(sound: Float32Array, decibels: number): Float32Array {
  const noise = babble(sound.length, randomFrom(7));
  return withNoise(sound, spokenPower(sound), noise, decibels);
}

describe('in talk that never stops', () => {
  test('a reply 10 dB above it is told within 1.5 s of its end', async () => {
    const said = await spoken('knees came forward', { before: 1.6, after: 0 });
    const sound = inBabble(joined(said, new Float32Array(32000)), 10);
    const [words] = wordsIn(await heardIn(sound, HINGE, alwaysSpeech));
    expect(words?.text).toBe('knees came forward');
    expect(words?.at).toBeLessThan(secondsOf(said) + 1.5);
  });

  test('the reply after it is told too', async () => {
    const sound = inBabble(
      joined(
        await spoken('pass', { before: 1, after: 1.5 }),
        await spoken('undo', { before: 0, after: 1.5 }),
      ),
      12,
    );
    expect(textsIn(await heardIn(sound, HINGE, alwaysSpeech))).toEqual(['pass', 'undo']);
  });

  test('talk alone is no reply', async () => {
    const sound = babble(3 * 16000, randomFrom(9)).map((sample) => 0.3 * sample);
    expect(textsIn(await heardIn(sound, HINGE, alwaysSpeech))).toEqual([]);
  });
});

describe('a pause inside a reply', () => {
  test('a fault after the angle belongs to it', async () => {
    const sound = joined(
      await spoken('left one forty', { before: 0.5, after: 0.4 }),
      await spoken('ribs flared', { before: 0, after: 1.2 }),
    );
    expect(textsIn(await heardIn(sound, SIDED))).toEqual(['left one forty ribs flared']);
  });

  test('a second fault belongs to the first', async () => {
    const sound = joined(
      await spoken('knees came forward', { before: 0.5, after: 0.4 }),
      await spoken('back rounded', { before: 0, after: 1.2 }),
    );
    expect(textsIn(await heardIn(sound, HINGE))).toEqual(['knees came forward back rounded']);
  });

  test('the first of two is told so far, soon after it', async () => {
    const first = await spoken('knees came forward', { before: 0.5, after: 0 });
    const rest = await spoken('back rounded', { before: 0.45, after: 1.2 });
    const told = await heardIn(joined(first, rest), HINGE);
    const soFar = told.find(({ hearing }) => hearing.type === 'so-far');
    expect(soFar?.hearing).toMatchObject({ text: 'knees came forward', prompt: HINGE });
    expect(soFar?.at).toBeLessThan(secondsOf(first) + 0.4);
    expect(textsIn(told)).toEqual(['knees came forward back rounded']);
  });

  test('pain is told with its number, once', async () => {
    const sound = joined(
      await spoken('sharp pain', { before: 0.5, after: 0 }),
      await spoken('seven', { before: 0, after: 1.2 }),
    );
    expect(textsIn(await heardIn(sound, HINGE))).toEqual(['sharp pain seven']);
  });
});

test('words that no reply explains make the rest less believed', async () => {
  const sound = await spoken('left one forty ribs flared');
  const grammar = grammarOf(book, SIDELESS);
  const heard = await parts.recogniser.hear(sound, grammar, lexicon);
  expect(heard?.confidence ?? 0).toBeLessThan(ACTS_FROM);
});

describe('how long is waited after a reply', () => {
  test.each([
    ['undo', 0.35],
    ['pass', 0.5],
    ['knees came forward', 0.85],
  ])('"%s" is told at most %d s after its end', async (text, seconds) => {
    const said = await spoken(text, { before: 0.6, after: 0 });
    const [words] = wordsIn(await heardIn(joined(said, new Float32Array(20000)), HINGE));
    expect(words?.text).toBe(text);
    expect(words?.at).toBeLessThan(secondsOf(said) + seconds);
  });
});

test('in talk that never stops the prompt counts that was open when the reply began', async () => {
  const random = randomFrom(3);
  const before = Float32Array.from({ length: 2 * 16000 }, () => 0.01 * (random() - 0.5));
  const said = await spoken('knees came forward', { before: 0.5, after: 1.2 });
  const told = await heardIn(joined(before, said), HINGE, alwaysSpeech, 'idle');
  const words = told.find(({ hearing }) => hearing.type === 'words')?.hearing;
  expect(words).toMatchObject({ text: 'knees came forward', prompt: HINGE });
});
