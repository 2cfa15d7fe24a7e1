import { describe, expect, it } from 'vitest';
import { createBrowserVoice } from '../../src/voice/browserVoice';
import { clock, pass, stopTime } from './clock';
import { saying } from './contract';
import { rudeSynthesis, type Rudeness } from './rudeSynthesis';

stopTime();

const enter = (rudeness: Rudeness = {}) => {
  const browser = rudeSynthesis(rudeness);
  const { synthesis, utter } = browser;
  return { ...browser, voice: createBrowserVoice({ synthesis, utter, clock, language: 'en' }) };
};

/** When a line was told as failed, ms after it was said; null where it was not. */
const failsAfter = async (rudeness: Rudeness, text = 'Stand tall') => {
  const { voice, sounding } = enter(rudeness);
  const line = saying(voice, text);
  for (let ms = 0; ms <= 20_000; ms += 10) {
    if (line.ended.mock.calls.length > 0) {
      expect(line.ended.mock.calls).toEqual([['failed']]);
      expect(sounding()).toBeNull();
      return ms;
    }
    await pass(10);
  }
  return null;
};

describe('a browser voice gives up, so that another voice can say the line', () => {
  it('3 s after loading where no voice comes', async () => {
    expect(await failsAfter({ voicesAfterMs: Infinity })).toBe(3000);
  });

  it('at once where the wait for voices is already over', async () => {
    const { voice } = enter({ voicesAfterMs: Infinity });
    await pass(3000);
    const line = saying(voice, 'Stand tall');
    await pass(1);
    expect(line.ended.mock.calls).toEqual([['failed']]);
  });

  it.each(['synthesis-failed', 'not-allowed', 'network', 'interrupted'])(
    'on the error %s',
    async (failsAtOnce) => {
      expect(await failsAfter({ failsAtOnce })).toBeLessThanOrEqual(10);
    },
  );

  it('where speaking is refused outright', async () => {
    expect(await failsAfter({ throws: true })).toBeLessThanOrEqual(10);
  });

  it('1 s after asking where nothing starts', async () => {
    expect(await failsAfter({ neverStarts: true })).toBe(1000);
  });

  it('where it starts and never ends: after twice the time a line takes, and silences it', async () => {
    const ms = await failsAfter({ neverEnds: true }, 'Push the hips back and stand up tall');
    expect(ms).toBeGreaterThan(5000);
    expect(ms).toBeLessThan(10_000);
  });

  it('where the browser has no synthesiser', async () => {
    const { utter } = rudeSynthesis();
    const voice = createBrowserVoice({ synthesis: undefined, utter, clock, language: 'en' });
    const line = saying(voice, 'Stand tall');
    await pass(1);
    expect(line.ended.mock.calls).toEqual([['failed']]);
  });

  it.each([
    ['only voices of other languages', [{ lang: 'fi-FI' }, { lang: 'de' }]],
    ['only voices that send the lines over a network', [{ localService: false }]],
  ])('where it has %s', async (_, voices) => {
    expect(await failsAfter({ voices })).toBe(3000);
  });
});

describe('a line that the browser pauses by itself', () => {
  const paused = (times: number) => enter({ pausesMidLine: { times, says: true } });

  it('is cancelled at once and said again from its start, and told as begun once', async () => {
    const { voice, said, sounding } = paused(1);
    const line = saying(voice, 'Push the hips back');
    await pass(700);
    expect(said.map(({ text }) => text)).toEqual(['Push the hips back', 'Push the hips back']);
    expect(sounding()?.text).toBe('Push the hips back');
    await pass(5000);
    expect(line.ended.mock.calls).toEqual([['spoken']]);
    expect(line.started).toHaveBeenCalledTimes(1);
  });

  it('fails where it is paused again, so that another voice can say it', async () => {
    const { voice, said } = paused(2);
    const line = saying(voice, 'Push the hips back');
    await pass(2000);
    expect(line.ended.mock.calls).toEqual([['failed']]);
    expect(said).toHaveLength(2);
  });

  it('stays silent where it was cancelled meanwhile', async () => {
    const { voice, said, sounding } = paused(1);
    const line = saying(voice, 'Push the hips back');
    await pass(530);
    line.cancel();
    await pass(5000);
    expect(said).toHaveLength(1);
    expect(sounding()).toBeNull();
  });

  it('that does not say so is given up like one that never ends', async () => {
    const ms = await failsAfter({ pausesMidLine: { times: 1, says: false } }, 'Stand tall');
    expect(ms).toBeGreaterThan(1500);
    expect(ms).toBeLessThan(4000);
  });
});

describe('a browser voice', () => {
  it('speaks as soon as voices come late', async () => {
    const { voice, sounding } = enter({ voicesAfterMs: 2500 });
    const line = saying(voice, 'Stand tall');
    await pass(2550);
    expect(sounding()?.text).toBe('Stand tall');
    await pass(5000);
    expect(line.ended.mock.calls).toEqual([['spoken']]);
  });

  it('speaks where voices come after a line had failed for want of them', async () => {
    const { voice } = enter({ voicesAfterMs: 5000 });
    const early = saying(voice, 'Stand tall');
    await pass(6000);
    const late = saying(voice, 'Stand tall');
    await pass(5000);
    expect(early.ended.mock.calls).toEqual([['failed']]);
    expect(late.ended.mock.calls).toEqual([['spoken']]);
  });

  it('always says which language a line is in, and takes the default voice of the device', async () => {
    const voices = [
      { name: 'far', lang: 'en-US', localService: false },
      { name: 'other', lang: 'en-AU', default: false },
      { name: 'usual', lang: 'en_GB', default: true },
    ];
    const { voice, said } = enter({ voices });
    saying(voice, 'Stand tall');
    await pass(100);
    expect(said[0]?.voice?.name).toBe('usual');
    expect(said[0]?.lang).toBe('en_GB');
  });

  it('speaks within the tap where voices are there: phones allow no later', () => {
    const { voice, said } = enter();
    saying(voice, 'Stand tall');
    expect(said).toHaveLength(1);
  });

  it('silences what the page before was saying', () => {
    const { cancelled } = enter();
    expect(cancelled).toHaveBeenCalledTimes(1);
  });

  it('does not wait for a line that was cancelled long ago without an end', async () => {
    const { voice, said } = enter({ cancelEnds: 'nothing' });
    const line = saying(voice, 'Push the hips back');
    await pass(100);
    line.cancel();
    await pass(1000);
    saying(voice, 'Stand tall');
    expect(said).toHaveLength(2);
  });
});
