import { beforeAll, describe, expect, test } from 'vitest';
import { UNFITTED } from '../../src/ear/coach/coachEar';
import { createDetector } from '../../src/ear/detecting';
import { earWorker } from '../../src/ear/earWorker';
import { FileDamagedError, FileMissingError } from '../../src/offline/fetching';
import type { EarParts } from '../../src/ear/loading';
import type { FromEarWorker } from '../../src/ear/messages';
import { nodeDetector, readerOf } from '../../src/ear/node';
import type { PhoneReader } from '../../src/ear/phoneReader';
import { URGENT } from '../../src/ear/urgent';
import { lexiconOf, phrases } from './grammars';
import { StrongHere } from './strongHere';
import { spoken } from './speech';

const SINGLE = phrases('confirm', ['yes', 'no', 'stop', 'pain', 'pain seven']);
const lexicon = lexiconOf(SINGLE);

let parts: EarParts;
beforeAll(async () => {
  const [detector, reader] = [await nodeDetector(), await readerOf('strong')];
  parts = { detector, reader, size: 'strong' };
});

/** A microphone's port that stays with the test. */
class OwnPort {
  onmessage: ((event: { data: Float32Array }) => void) | null = null;
  closed = false;
  close() {
    this.closed = true;
  }
  /** As the worklet sends it. */
  send(sound: Float32Array, piece = 1024) {
    for (let at = 0; at < sound.length; at += piece)
      this.onmessage?.({ data: sound.slice(at, at + piece) });
  }
  get port() {
    return this as unknown as MessagePort;
  }
}

/** Never asked for where the first hears with all that there is. */
const noStrong = new StrongHere(() => Promise.reject(new Error('Nobody asked for it.')));

async function started(load: () => Promise<EarParts>, strong = noStrong) {
  const timers = new Set<() => void>();
  const told: FromEarWorker[] = [];
  const waiting: ((message: FromEarWorker) => unknown)[] = [];
  const until = <Type extends FromEarWorker['type']>(
    type: Type,
    test: (message: Extract<FromEarWorker, { type: Type }>) => boolean = () => true,
  ) =>
    new Promise<FromEarWorker>((resolve) => {
      waiting.push((message) => {
        if (message.type !== type) return;
        if (test(message as Extract<FromEarWorker, { type: Type }>)) resolve(message);
      });
    });
  const handle = earWorker({
    tell: (message) => {
      told.push(message);
      for (const check of waiting) check(message);
    },
    load,
    startStrong: () => strong,
    wait: (_milliseconds, run) => {
      timers.add(run);
      return () => timers.delete(run);
    },
  });
  handle({ type: 'attend', prompt: 'confirm', grammar: SINGLE });
  const begun = Promise.race([until('hears-with'), until('failed')]);
  handle({ type: 'start', assetsBase: '/', lexicon, urgent: URGENT });
  await begun;
  const untilWords = () => until('heard', ({ hearing }) => hearing.type === 'words');
  /** Time passes until every timer that runs now is due. */
  const pass = () => {
    const due = [...timers];
    timers.clear();
    for (const run of due) run();
  };
  return { told, handle, until, untilWords, pass };
}

describe('the worker', () => {
  test('hears a piece at 44.1 kHz at the prompt that was attended before it was ready', async () => {
    parts.detector.reset();
    const { handle, untilWords, told } = await started(() => Promise.resolve(parts));
    const words = untilWords();
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

  test("hears a coach's own words, and goes on where the next fit leaves one out", async () => {
    parts.detector.reset();
    const { handle, untilWords } = await started(() => Promise.resolve(parts));
    const grammar = phrases('confirm', ['yes', 'no', 'cushty']);
    const coach = { ...UNFITTED, variants: { yes: ['Y AA S'] } };
    handle({ type: 'fit', coach, lexicon: lexiconOf(grammar) });
    handle({ type: 'attend', prompt: 'confirm', grammar });
    const words = untilWords();
    handle({ type: 'sound', samples: await spoken('cushty'), sampleRate: 16000 });
    const phones = expect.arrayContaining(['K', 'SH', 'T', 'IY']) as string[];
    expect(await words).toMatchObject({ hearing: { text: 'cushty', phones } });
    // A grammar that is still attended may hold a word that the next fit leaves out.
    handle({ type: 'fit', coach: UNFITTED, lexicon });
    const again = untilWords();
    handle({ type: 'sound', samples: await spoken('cushty'), sampleRate: 16000 });
    expect(await again).toMatchObject({ hearing: { text: 'cushty' } });
  });

  test('says that a model is missing, and why', async () => {
    const { told } = await started(() =>
      Promise.reject(new FileMissingError('ear/vad.onnx: answered 404')),
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

  test('a microphone of another rate takes the place of the one before', async () => {
    parts.detector.reset();
    const { handle, untilWords } = await started(() => Promise.resolve(parts));
    const [first, second] = [new OwnPort(), new OwnPort()];
    handle({ type: 'microphone', port: first.port, sampleRate: 48000 });
    first.send(new Float32Array(4096));
    handle({ type: 'microphone', port: second.port, sampleRate: 16000 });
    expect(first.closed).toBe(true);
    const words = untilWords();
    second.send(await spoken('yes', { before: 0.5, after: 1 }));
    expect(await words).toMatchObject({ hearing: { text: 'yes' } });
  });
});

test('of a recording, heard sooner than it was spoken, it is not told how long ago words began', async () => {
  parts.detector.reset();
  const { handle, untilWords } = await started(() => Promise.resolve(parts));
  const recorded = untilWords();
  handle({ type: 'sound', samples: await spoken('yes'), sampleRate: 16000 });
  expect(await recorded).toMatchObject({ hearing: { text: 'yes' } });
  expect(await recorded).not.toHaveProperty('hearing.beganSecondsAgo');
  const port = new OwnPort();
  handle({ type: 'microphone', port: port.port, sampleRate: 16000 });
  const live = untilWords();
  port.send(await spoken('yes', { before: 1, after: 1 }));
  expect(await live).toHaveProperty('hearing.beganSecondsAgo');
});

describe('two sizes of one ear', () => {
  /** The same reader under two names, which notes who read what; the strong one comes when told to. */
  const sized = async (now?: () => number, slowed: PhoneReader['read'] = parts.reader.read) => {
    const read: string[] = [];
    let bring: (problem: Error | null) => void = () => undefined;
    const named = (name: string, reads = parts.reader.read): PhoneReader => ({
      belief: parts.reader.belief,
      read: (samples) => {
        read.push(name);
        return reads(samples);
      },
    });
    const come = new Promise<{ strong: PhoneReader; small: PhoneReader }>((resolve, reject) => {
      bring = (problem) => {
        if (problem) reject(problem);
        else resolve({ strong: named('strong', slowed), small: named('beside') });
      };
    });
    come.catch(() => undefined);
    const strong = new StrongHere(() => come, now);
    parts.detector.reset();
    const worker = await started(
      () => Promise.resolve({ ...parts, reader: named('small'), size: 'small' }),
      strong,
    );
    const port = new OwnPort();
    worker.handle({ type: 'microphone', port: port.port, sampleRate: 16000 });
    const says = async (text: string) => {
      const words = worker.untilWords();
      port.send(await spoken(text, { before: 0.3, after: 1 }));
      return words;
    };
    return { ...worker, port, read, bring, strong, says };
  };

  test('the small one hears first, and says so', async () => {
    const { told, says, read } = await sized();
    expect(told).toMatchObject([{ type: 'ready' }, { type: 'hears-with', size: 'small' }]);
    expect(await says('yes')).toMatchObject({ hearing: { text: 'yes' } });
    expect(new Set(read)).toEqual(new Set(['small']));
  });

  test('the strong one joins between two replies, never in the middle of one', async () => {
    const { port, until, says, read, bring } = await sized();
    const sound = await spoken('pain seven', { before: 0.5, after: 1 });
    const onset = until('heard', ({ hearing }) => hearing.type === 'onset');
    port.send(sound.subarray(0, 16000));
    await onset;
    const grown = until('hears-with', ({ size }) => size === 'strong');
    bring(null);
    const words = until('heard', ({ hearing }) => 'text' in hearing && /seven/.test(hearing.text));
    port.send(sound.subarray(16000));
    await words;
    // It has been tried out by then, and nothing more.
    expect(read.filter((name) => name === 'small').length).toBeGreaterThan(0);
    await grown;

    read.length = 0;
    expect(await says('yes')).toMatchObject({ hearing: { text: 'yes' } });
    expect(new Set(read)).toEqual(new Set(['strong', 'beside']));
  });

  test('while it looks, stop words are looked for', async () => {
    let answer: () => void = () => undefined;
    let isHeldUp = false;
    const { until, bring, port, told, strong, handle } = await sized(undefined, async (samples) => {
      if (isHeldUp) await new Promise<void>((resolve) => (answer = resolve));
      return parts.reader.read(samples);
    });
    const grown = until('hears-with', ({ size }) => size === 'strong');
    bring(null);
    await grown;
    isHeldUp = true;
    strong.sent.length = 0;
    // Nothing is asked, as while a line is said.
    const grammar = phrases('idle', ['please stop', 'pause']);
    handle({ type: 'fit', coach: UNFITTED, lexicon: lexiconOf(grammar) });
    handle({ type: 'attend', prompt: 'idle', grammar });
    const stop = until('heard', ({ hearing }) => 'text' in hearing && /stop/.test(hearing.text));
    port.send(await spoken('please stop', { before: 0.5, after: 0.05 }));
    await stop;
    expect(strong.sent).toContain('look');
    expect(told.filter(({ type }) => type === 'failed')).toEqual([]);
    isHeldUp = false;
    answer();
  });

  test.each([
    ['missing', new FileMissingError('ear/encoder.onnx: answered 404')],
    ['damaged', new FileDamagedError('ear/encoder.onnx: damaged, twice')],
    ['damaged', new Error('protobuf parsing failed')],
  ] as const)(
    'where the strong one is %s the small one hears on, and says why once',
    async (why, problem) => {
      const { told, until, says, bring, strong } = await sized();
      const stays = until('hears-with', (message) => message.why === why);
      bring(problem);
      await stays;
      expect(await says('yes')).toMatchObject({ hearing: { text: 'yes' } });
      expect(told.filter(({ type }) => type === 'hears-with')).toHaveLength(2);
      expect(told.some(({ type }) => type === 'failed')).toBe(false);
      expect(strong.terminated).toBe(true);
    },
  );

  test('where its worker dies in the middle of a look the small one looks, and hears on', async () => {
    let isHeldUp = false;
    const { until, bring, says, strong, told } = await sized(undefined, (samples) =>
      isHeldUp ? new Promise(() => undefined) : parts.reader.read(samples),
    );
    const grown = until('hears-with', ({ size }) => size === 'strong');
    bring(null);
    await grown;
    isHeldUp = true;
    strong.sent.length = 0;
    const words = says('pain seven');
    while (!strong.sent.includes('look')) await new Promise(setImmediate);
    strong.crash();
    expect(await words).toMatchObject({ hearing: { text: expect.stringMatching(/^pain/) } });
    expect(told.at(-1)).not.toMatchObject({ type: 'failed' });
    expect(await says('yes')).toMatchObject({ hearing: { text: 'yes' } });
    expect(told).toContainEqual({ type: 'hears-with', size: 'small', why: 'damaged' });
  });

  test('where its worker answers no more the small one looks, and hears on', async () => {
    let isHeldUp = false;
    const { until, bring, says, strong, told, pass } = await sized(undefined, (samples) =>
      isHeldUp ? new Promise(() => undefined) : parts.reader.read(samples),
    );
    const grown = until('hears-with', ({ size }) => size === 'strong');
    bring(null);
    await grown;
    isHeldUp = true;
    strong.sent.length = 0;
    const words = says('pain seven');
    while (!strong.sent.includes('look')) await new Promise(setImmediate);
    pass();
    // A page that was frozen finds time passed before an answer could come.
    expect(strong.terminated).toBe(false);
    pass();
    expect(strong.terminated).toBe(true);
    expect(await words).toMatchObject({ hearing: { text: expect.stringMatching(/^pain/) } });
    expect(await says('yes')).toMatchObject({ hearing: { text: 'yes' } });
    expect(told).toContainEqual({ type: 'hears-with', size: 'small', why: 'slow' });
  });

  test('a look that was answered is waited for no longer', async () => {
    const { until, bring, says, strong, pass } = await sized();
    const grown = until('hears-with', ({ size }) => size === 'strong');
    bring(null);
    await grown;
    await says('yes');
    pass();
    pass();
    expect(strong.terminated).toBe(false);
  });

  test("the strong one hears a coach's own words, from before it came and after", async () => {
    const { until, bring, says, handle } = await sized();
    const fitted = (text: string) => {
      const grammar = phrases('confirm', ['yes', 'no', text]);
      handle({ type: 'fit', coach: UNFITTED, lexicon: lexiconOf(grammar) });
      handle({ type: 'attend', prompt: 'confirm', grammar });
    };
    fitted('cushty');
    const grown = until('hears-with', ({ size }) => size === 'strong');
    bring(null);
    await grown;
    expect(await says('cushty')).toMatchObject({ hearing: { text: 'cushty' } });
    fitted('lovely');
    expect(await says('lovely')).toMatchObject({ hearing: { text: 'lovely' } });
  });

  test('a phone that needs half a second for a second of sound stays with the small one', async () => {
    let seconds = 0;
    const { until, bring, read } = await sized(
      () => seconds,
      (samples) => {
        seconds += 0.5;
        return parts.reader.read(samples);
      },
    );
    const stays = until('hears-with', ({ why }) => why === 'slow');
    bring(null);
    expect(await stays).toMatchObject({ size: 'small' });
    // The best of three trials counts.
    expect(read).toEqual(['strong', 'strong', 'strong']);
  });

  test('a phone that becomes slower than the sound goes back to the small one', async () => {
    let seconds = 0;
    let pace = 0.1;
    const { until, says, bring, read } = await sized(
      () => seconds,
      (samples) => {
        seconds += (pace * samples.length) / 16000;
        return parts.reader.read(samples);
      },
    );
    const grown = until('hears-with', ({ size }) => size === 'strong');
    bring(null);
    await grown;
    pace = 1.1;
    const stays = until('hears-with', ({ why }) => why === 'slow');
    for (const text of ['pain seven', 'yes', 'yes']) await says(text);
    expect(await stays).toMatchObject({ size: 'small' });
    read.length = 0;
    expect(await says('no')).toMatchObject({ hearing: { text: 'no' } });
    expect(new Set(read)).toEqual(new Set(['small']));
  });
});
