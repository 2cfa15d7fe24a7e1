import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { nodeRecogniser, readWav, utteranceOf, utterancesOf } from '../../src/ear/node';
import { Resampler, resampled } from '../../src/ear/resampling';
import { lexiconOf, phrases } from './grammars';
import { joined, spoken, wavFile, wavOf } from './speech';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'sayso-ear-'));
});
const file = async (name: string, bytes: Uint8Array) => {
  const path = join(folder, name);
  await writeFile(path, bytes);
  return path;
};

const tone = (hertz: number, sampleRate: number, seconds = 0.5) =>
  Float32Array.from(
    { length: Math.round(seconds * sampleRate) },
    (_, at) => 0.5 * Math.sin((2 * Math.PI * hertz * at) / sampleRate),
  );
/** Loudness in the middle, away from the ends. */
const rms = (samples: Float32Array) => {
  const middle = samples.subarray(samples.length / 4, (samples.length * 3) / 4);
  return Math.sqrt(middle.reduce((sum, x) => sum + x * x, 0) / middle.length);
};

describe('resampling to 16 kHz', () => {
  test.each([8000, 11025, 22050, 44100, 48000, 96000])(
    '%d: a tone keeps pitch and level',
    (rate) => {
      const out = resampled(tone(1000, rate), rate);
      expect(out.length / 16000).toBeCloseTo(0.5, 2);
      const expected = tone(1000, 16000);
      const error = out.subarray(1000, 7000).map((x, at) => x - expected[at + 1000]!);
      expect(rms(error)).toBeLessThan(0.003);
    },
  );

  test.each([44100, 48000])('%d: what 16 kHz cannot hold is gone, not folded back', (rate) => {
    expect(rms(resampled(tone(11000, rate), rate))).toBeLessThan(0.001);
  });

  test('in pieces gives the same as at once', () => {
    const sound = tone(700, 44100);
    const resampler = new Resampler(44100);
    const pieces: Float32Array[] = [];
    for (let at = 0; at < sound.length; at += 1024)
      pieces.push(resampler.push(sound.slice(at, at + 1024)));
    pieces.push(resampler.end());
    expect(joined(...pieces)).toEqual(resampled(sound, 44100));
  });
});

describe('a WAV file', () => {
  const half = (write: (body: Buffer) => void, bytes: number) => {
    const body = Buffer.alloc(bytes * 100);
    write(body);
    return body;
  };
  test.each([
    ['8-bit', 1, 8, half((body) => body.fill(192), 1)],
    ['16-bit', 1, 16, half((body) => body.fill(Buffer.from([0x00, 0x40])), 2)],
    ['24-bit', 1, 24, half((body) => body.fill(Buffer.from([0x00, 0x00, 0x40])), 3)],
    ['32-bit', 1, 32, half((body) => body.fill(Buffer.from([0, 0, 0, 0x40])), 4)],
    ['float', 3, 32, half((body) => body.fill(Buffer.from([0, 0, 0, 0x3f])), 4)],
  ])('of %s samples is read', async (name, codec, bits, body) => {
    const bytes = wavFile({ codec, bits, channels: 1, sampleRate: 16000 }, body);
    const samples = await readWav(await file(`${name}.wav`, bytes));
    expect(samples).toHaveLength(100);
    expect(samples[50]).toBeCloseTo(0.5, 6);
  });

  test.each([
    ['is missing', null, 'there is no such file'],
    ['is text', Buffer.from('not a sound at all'), 'is no WAV file'],
    [
      'is compressed',
      wavFile({ codec: 85, bits: 16, channels: 1, sampleRate: 16000 }, Buffer.alloc(10)),
      'codec 85, which cannot be read. Save it as WAV',
    ],
    ['is empty', wavOf(new Float32Array(0), 16000), 'is empty'],
    ['is cut in its head', wavOf(new Float32Array(9), 16000).subarray(0, 30), 'damaged or cut'],
  ])('that %s is refused with what to do', async (name, bytes, why) => {
    const path = bytes === null ? join(folder, 'none.wav') : await file(`${name}.wav`, bytes);
    await expect(readWav(path)).rejects.toThrow(why);
    await expect(readWav(path)).rejects.toMatchObject({ name: 'EarFileError' });
  });

  test('that was cut short is heard as far as it goes', async () => {
    const whole = wavOf(tone(500, 16000), 16000);
    const path = await file('short.wav', whole.subarray(0, 44 + 4000));
    expect(await readWav(path)).toHaveLength(2000);
  });
});

describe('utterances of a longer file', () => {
  test('speech is cut out of long silence, and heard', async () => {
    const grammar = phrases('confirm', ['yes', 'no', 'knees forward']);
    const sound = await spoken('knees forward', { before: 5, after: 9 });
    const path = await file('long.wav', wavOf(sound, 16000, 2));
    const samples = await readWav(path);
    const utterance = await utteranceOf(samples, path);
    expect(utterance!.length / 16000).toBeLessThan(3);
    const recogniser = await nodeRecogniser();
    expect(await recogniser.hear(utterance!, grammar, lexiconOf(grammar))).toMatchObject({
      text: 'knees forward',
    });
  });

  test('two replies are two pieces', async () => {
    const sound = joined(
      await spoken('yes', { before: 1, after: 1 }),
      await spoken('knees forward', { after: 1 }),
    );
    expect(await utterancesOf(sound)).toHaveLength(2);
  });

  test('silence has none', async () => {
    expect(await utteranceOf(new Float32Array(32000), 'x.wav')).toBeNull();
  });

  test('a speech is refused with what to do', async () => {
    const talk = await spoken('my daughter starts school on monday', { before: 0, after: 0 });
    const long = joined(...Array.from({ length: 9 }, () => talk));
    await expect(utteranceOf(long, 'speech.wav')).rejects.toThrow('Cut it into one file a reply');
  });
});
