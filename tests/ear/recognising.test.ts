import { beforeAll, describe, expect, test } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { understand } from '../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import { ACTS_FROM, ASKS_FROM } from '../../src/ear/confidence';
import { nodeRecogniser } from '../../src/ear/node';
import { OUTPUTS, outputOf } from '../../src/ear/phones';
import { strongReader, type Runtime } from '../../src/ear/phoneReader';
import { createRecogniser, type Recogniser } from '../../src/ear/recognising';
import { spokenPower, withNoise } from '../sounds/surroundings';
import { hingeCheck, lexiconOf, phrases } from './grammars';
import { mixed, NOISES, randomFrom } from './noises';
import { COACH_VOICE, joined, SAYSO_VOICE, spoken } from './speech';

const grammar = hingeCheck();
const lexicon = lexiconOf(grammar);
let recogniser: Recogniser;
beforeAll(async () => {
  recogniser = await nodeRecogniser();
});
const hear = (sound: Float32Array) => recogniser.hear(sound, grammar, lexicon);
const book = loadBook('scripts-cues', 'en');
const repliedIn = (text: string) =>
  understand(book, 'check/hinge-unloaded', text, { ...DEFAULT_SETTINGS, confidence: 1 }).reply;

describe('replies at a prompt with some thousand others', () => {
  test.each([
    'pass',
    'stop',
    'knees came forward',
    'no pain',
    'left one forty limited',
    'back rounded knees locked',
    'right side one hundred and fifty five bar drifted away',
    'pain seven',
    'say that again',
  ])('"%s" is heard, surely, from both voices', async (said) => {
    for (const voice of [COACH_VOICE, SAYSO_VOICE]) {
      const heard = await hear(await spoken(said, { voice }));
      expect(repliedIn(heard?.text ?? '')).toEqual(repliedIn(said));
      expect(heard?.confidence).toBeGreaterThanOrEqual(ACTS_FROM);
    }
  });

  test.each(NOISES.map(({ name, make }) => ({ name, make })))(
    'in $name 10 dB below it a fault is still heard and believed',
    async ({ make }) => {
      const speech = await spoken('knees came forward', { before: 0, after: 0 });
      const heard = await hear(mixed(speech, make, 10, randomFrom(3)));
      expect(heard?.text).toBe('knees came forward');
      expect(heard?.confidence).toBeGreaterThan(0.5);
    },
  );

  test('as quiet as a whisper from across the room it is heard the same', async () => {
    const loud = await spoken('bar drifted away');
    const heard = await hear(loud.map((sample) => sample * 0.01));
    expect(heard?.text).toBe('bar drifted away');
  });

  test('what may follow is told with it', async () => {
    expect(await hear(await spoken('knees locked'))).toMatchObject({ following: 'more' });
    expect(await hear(await spoken('undo'))).toMatchObject({ following: 'nothing' });
  });
});

describe('what is no reply', () => {
  test.each([
    'what time do you finish today',
    'can you turn the music down please',
    'did you pass your driving test',
    'my daughter starts school on monday',
    'push your hips back',
    'beautiful, keep going',
  ])('"%s" is not taken for one', async (said) => {
    const heard = await hear(await spoken(said));
    expect(heard?.confidence ?? 0).toBeLessThan(ASKS_FROM);
  });

  test.each(NOISES.map(({ name, make }) => ({ name, make })))(
    'two seconds of $name are nothing',
    async ({ make }) => {
      expect(await hear(make(32000, randomFrom(5)))).toBeNull();
    },
  );

  test('silence, a click and sound without end are nothing', async () => {
    expect(await hear(new Float32Array(16000))).toBeNull();
    expect(await hear(new Float32Array(800).fill(0.5))).toBeNull();
    expect(await hear(new Float32Array(0))).toBeNull();
    expect(await hear(await spoken('stop', { after: 13 }))).toBeNull();
  });
});

describe('a second look', () => {
  /** A runtime whose head gives these rows of phones, one a look. */
  const looksOf = async (...rows: string[][]) => {
    let looks = 0;
    const head = () => {
      const row = rows[Math.min(looks, rows.length - 1)]!;
      looks += 1;
      const y = new Float32Array(row.length * OUTPUTS);
      row.forEach((phone, frame) => {
        y[frame * OUTPUTS + (outputOf(phone) ?? 0)] = 8;
        // Half heard: the phone of the reply is not the likeliest, but not far below it.
        if (phone === 'T') y[frame * OUTPUTS + outputOf('S')!] = 5;
      });
      return { y: { data: y } };
    };
    const runtime = {
      env: { wasm: {} },
      Tensor: Object,
      InferenceSession: {
        create: async (model: Uint8Array) => ({
          run: async () => (model.length === 1 ? { last_hidden_state: {} } : head()),
        }),
      },
    } as unknown as Runtime;
    const grammar = phrases('confirm', ['yes']);
    const reader = await strongReader(runtime, {
      encoder: new Uint8Array(1),
      head: new Uint8Array(2),
    });
    const heard = await createRecogniser(reader).hear(
      new Float32Array(16000).fill(0.5),
      grammar,
      lexiconOf(grammar),
    );
    return { heard, looks };
  };

  test('is taken where the first was unsure, and the better one counts', async () => {
    const { heard, looks } = await looksOf(['Y', 'EH', 'T'], ['Y', 'EH', 'S']);
    expect(looks).toBe(2);
    expect(heard?.confidence).toBeGreaterThan(0.8);
    const worse = await looksOf(['Y', 'EH', 'T'], ['K', 'K', 'K']);
    expect(worse.heard?.confidence).toBeLessThan(0.5);
  });

  test('is not taken where the first was sure, or hopeless', async () => {
    expect(await looksOf(['Y', 'EH', 'S'])).toMatchObject({ looks: 1, heard: { text: 'yes' } });
    expect(await looksOf(['K', 'K', 'K'])).toEqual({ looks: 1, heard: null });
  });
});

test('of sound that breaks off in noise the last phones are heard too', async () => {
  const said = await spoken('one forty seven low back arched', { after: 0 });
  const { make } = NOISES.find(({ name }) => name === 'pink')!;
  const noise = make(said.length, randomFrom(3));
  const sound = withNoise(said, spokenPower(said), noise, 8);
  for (const share of [0.7, 0.8, 0.9]) {
    const begun = sound.slice(0, Math.round(share * sound.length));
    const { talk } = await recogniser.look(begun, grammar, lexicon, { breaksOff: true });
    expect(talk?.endedSeconds).toBeLessThan(0.16);
  }
});

test('questions asked at once are answered each with its own', async () => {
  const said = ['pass', 'stop', 'limited'];
  const sounds = await Promise.all(said.map((text) => spoken(text)));
  const heard = await Promise.all(sounds.map(hear));
  expect(heard.map((each) => each?.text)).toEqual(said);
});

test('the same sound gives the same answer to the last digit', async () => {
  const sound = joined(await spoken('knees came forward'), await spoken('back rounded'));
  expect(await hear(sound)).toEqual(await hear(sound));
});

test('a grammar with a word that cannot be pronounced names it', async () => {
  const strange = {
    prompt: 'idle',
    states: 2,
    finals: [1],
    arcs: [{ from: 0, to: 1, words: 'zorb' }],
  };
  await expect(recogniser.hear(new Float32Array(16000), strange, lexicon)).rejects.toThrow(
    'replies at idle use words without pronunciation: zorb',
  );
});
