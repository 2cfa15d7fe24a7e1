import { describe, expect, test } from 'vitest';
import type { Grammar } from '../../src/domain/hearing/grammar';
import { ACTS_FROM, ASKS_FROM } from '../../src/ear/confidence';
import { earWorker } from '../../src/ear/earWorker';
import { Listening } from '../../src/ear/listening';
import type { FromEarWorker } from '../../src/ear/messages';
import { nodeDetector, readerOf } from '../../src/ear/node';
import type { Recogniser } from '../../src/ear/recognising';
import type { Hearing } from '../../src/ports';
import { lexiconOf } from './grammars';
import { spoken } from './speech';

const MEANT: Record<string, string> = {
  pass: '{"says":{"result":"held"}}',
  'knees forward': '{"says":{"faults":["knees-forward"]}}',
  stop: '{"says":{"command":"stop"}}',
  next: '{"says":{"command":"next"}}',
  yes: '{"says":{"command":"yes"}}',
  no: '{"says":{"command":"no"}}',
  'sharp pain': '{"says":{"result":"pain","painKind":"sharp"}}',
  'chest hurts': '{"says":{"redFlag":"chest-pain"}}',
};
const grammarAt = (prompt: string): Grammar => ({
  prompt,
  states: 2,
  finals: [1],
  arcs: Object.entries(MEANT).map(([words, means]) => ({ from: 0, to: 1, words, means })),
});
const grammars = new Map(
  ['check/hinge-bar', 'confirm', 'idle'].map((prompt) => [prompt, grammarAt(prompt)]),
);

const SAID_SECONDS = 0.6;
const AFTER_SECONDS = 1;
const samplesIn = (seconds: number) => Math.round(seconds * 16000);
/** A hum of this loudness, with silence after it. */
const soundAt = (decibels: number, seconds: number, after: number) =>
  Float32Array.from({ length: samplesIn(seconds + after) }, (_, at) =>
    at < samplesIn(seconds) ? 0.2 * 10 ** (decibels / 20) * Math.sin(0.1 * at) : 0,
  );
const quietAtEnd = (sound: Float32Array) =>
  (sound.length - 1 - sound.findLastIndex((sample) => sample !== 0)) / 16000;

/** An ear that surely hears the words that the test has in mind, as loud as the test says them. */
function ear() {
  let words = '';
  let told: Hearing[] = [];
  const look: Recogniser['look'] = async (sound) => {
    const silenceSeconds = quietAtEnd(sound);
    const spokenSeconds = SAID_SECONDS - 0.1;
    const heard = { text: words, confidence: 0.9, following: 'nothing' as const };
    return { heard: { ...heard, spokenSeconds, silenceSeconds }, talk: null };
  };
  const listening = new Listening({
    detector: {
      speech: async (frame) => (frame.some((sample) => sample !== 0) ? 1 : 0),
      reset: () => undefined,
    },
    recogniser: { look },
    lexicon: lexiconOf(),
    urgent: new Set(['stop']),
    tell: (hearing) => told.push(hearing),
  });
  /** What comes of words so far below a coach at one metre. */
  const says = async (text: string, decibels = 0, prompt = 'check/hinge-bar') => {
    words = text;
    told = [];
    listening.attend(grammars.get(prompt)!);
    await listening.push(soundAt(decibels, SAID_SECONDS, AFTER_SECONDS));
    const [heard] = told.filter((hearing) => hearing.type === 'words');
    expect(heard?.text).toBe(text);
    const confidence = heard?.confidence ?? 0;
    return confidence >= ACTS_FROM ? 'acted on' : confidence >= ASKS_FROM ? 'asked' : 'ignored';
  };
  const nobodySpeaks = (seconds: number) => listening.push(new Float32Array(samplesIn(seconds)));
  return { says, nobodySpeaks, listening };
}

/** After the coach's replies from one metre. */
async function earThatKnows() {
  const known = ear();
  for (const text of ['pass', 'knees forward', 'pass']) await known.says(text);
  return known;
}

const NEXT_RACK = -10;
const MORE_SOFTLY = -5;
const FROM_THREE_METRES = -9.5;

describe('a grade far below what the coach says', () => {
  test('is asked about, and the next as loud as the coach is acted on', async () => {
    const { says } = await earThatKnows();
    expect(await says('pass', NEXT_RACK)).toBe('asked');
    expect(await says('knees forward', NEXT_RACK)).toBe('asked');
    expect(await says('pass')).toBe('acted on');
  });

  test('is acted on while the coach has said little: nothing is known yet', async () => {
    const { says } = ear();
    expect(await says('pass')).toBe('acted on');
    expect(await says('pass', NEXT_RACK)).toBe('acted on');
  });

  test.each(['stop', 'sharp pain', 'chest hurts', 'next'])('"%s" acts as ever', async (text) => {
    const { says } = await earThatKnows();
    expect(await says(text, -20)).toBe('acted on');
  });

  test('at idle nothing is asked, so it is told as ever', async () => {
    const { says } = await earThatKnows();
    expect(await says('pass', NEXT_RACK, 'idle')).toBe('acted on');
  });

  test('a loud "no" leaves the coach where the coach was', async () => {
    const { says } = await earThatKnows();
    expect(await says('pass', NEXT_RACK)).toBe('asked');
    expect(await says('no', 0, 'confirm')).toBe('acted on');
    for (let reply = 0; reply < 2; reply += 1) expect(await says('pass', NEXT_RACK)).toBe('asked');
  });
});

test('a coach who speaks more softly is not asked', async () => {
  const { says } = await earThatKnows();
  expect(await says('pass', MORE_SOFTLY)).toBe('acted on');
});

describe('a coach who walked away', () => {
  test.each(['yes', 'no'])(
    'to three is asked once, and "%s" counts, quiet as it is',
    async (to) => {
      const { says } = await earThatKnows();
      expect(await says('pass', FROM_THREE_METRES)).toBe('asked');
      expect(await says(to, FROM_THREE_METRES, 'confirm')).toBe('acted on');
      expect(await says('pass', FROM_THREE_METRES)).toBe('acted on');
      expect(await says('knees forward', FROM_THREE_METRES)).toBe('acted on');
    },
  );

  test('and answers nothing is asked three times at most', async () => {
    const { says } = await earThatKnows();
    for (let reply = 0; reply < 3; reply += 1)
      expect(await says('pass', FROM_THREE_METRES)).toBe('asked');
    expect(await says('pass', FROM_THREE_METRES)).toBe('acted on');
  });

  test('and comes back is heard as near after three replies', async () => {
    const { says } = await earThatKnows();
    await says('pass', FROM_THREE_METRES);
    await says('yes', FROM_THREE_METRES, 'confirm');
    for (let reply = 0; reply < 3; reply += 1) expect(await says('pass')).toBe('acted on');
    expect(await says('pass', NEXT_RACK)).toBe('asked');
  });

  test('is taken as new after three minutes without a reply', async () => {
    const { says, nobodySpeaks } = await earThatKnows();
    await nobodySpeaks(181);
    expect(await says('pass', FROM_THREE_METRES)).toBe('acted on');
  });
});

test('another microphone hears another loudness', async () => {
  const [detector, reader] = [await nodeDetector(), await readerOf('strong')];
  const heard: number[] = [];
  let wake = () => {};
  const tell = (message: FromEarWorker) => {
    if (message.type === 'heard' && message.hearing.type === 'words')
      heard.push(message.hearing.confidence);
    if (message.type === 'hears-with' || heard.length > 0) wake();
  };
  const load = () => Promise.resolve({ detector, reader, size: 'strong' as const });
  const startStrong = () => {
    throw new Error('The first one hears with all that there is.');
  };
  const handle = earWorker({ tell, load, startStrong, wait: () => () => undefined });
  const awaited = (start: () => void) =>
    new Promise<void>((resolve) => {
      wake = resolve;
      start();
    });
  const grammar = grammars.get('check/hinge-bar')!;
  await awaited(() =>
    handle({ type: 'start', assetsBase: '/', lexicon: lexiconOf(grammar), urgent: [] }),
  );
  handle({ type: 'attend', prompt: grammar.prompt, grammar });
  const said = await spoken('knees forward');
  const hear = async (decibels: number) => {
    heard.length = 0;
    const samples = said.map((sample) => sample * 10 ** (decibels / 20));
    await awaited(() => handle({ type: 'sound', samples, sampleRate: 16000 }));
    return heard[0] ?? 0;
  };
  for (let reply = 0; reply < 2; reply += 1) expect(await hear(0)).toBeGreaterThan(ACTS_FROM);
  expect(await hear(-12)).toBeLessThan(ACTS_FROM);
  const { port1: port } = new MessageChannel();
  handle({ type: 'microphone', port, sampleRate: 16000 });
  expect(await hear(-12)).toBeGreaterThan(ACTS_FROM);
  port.close();
}, 60_000);
