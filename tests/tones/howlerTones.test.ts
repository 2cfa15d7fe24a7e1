// @vitest-environment jsdom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { TONES } from '../../src/ports';
import { toneSamples } from '../../src/tones/shapes';
import { fakeAudio } from './fakeAudio';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** Tones in a fresh page: the player is one for the whole page and looks at its audio once. */
const enter = async (hasSound = true) => {
  const audio = fakeAudio();
  if (!hasSound) Object.assign(globalThis, { AudioContext: undefined });
  const { Howler } = await import('howler');
  const fresh = { usingWebAudio: true, autoSuspend: true, autoUnlock: true };
  Object.assign(Howler, fresh, { _mobileUnloaded: false, _audioUnlocked: false });
  Howler.unload();
  const { createHowlerTones } = await import('../../src/tones/howlerTones');
  return { audio, tones: createHowlerTones() };
};

/** Tones in a page that was tapped. */
const tapped = async () => {
  const page = await enter();
  page.audio.allowed = true;
  await page.tones.unlock();
  return page;
};

const pass = (milliseconds: number) => vi.advanceTimersByTimeAsync(milliseconds);

describe('tones in the page', () => {
  it.each(TONES)('plays %s after the tap', async (name) => {
    const { audio, tones } = await tapped();
    tones.play(name);
    await pass(10);
    expect(audio.sounding.size).toBe(1);
    expect(audio.begun[0]).toBeCloseTo(toneSamples(name, 44100).length / 44100, 3);
    await pass(2000);
    expect(audio.sounding.size).toBe(0);
  });

  it('plays the same tone again and again', async () => {
    const { audio, tones } = await tapped();
    for (let count = 0; count < 5; count += 1) {
      tones.play('countdown');
      await pass(1000);
    }
    expect(audio.begun).toHaveLength(5);
  });

  it('leaves out what comes before the tap: it is never played late', async () => {
    const { audio, tones } = await enter();
    tones.play('listening');
    await pass(100);
    audio.allowed = true;
    await tones.unlock();
    await pass(5000);
    expect(audio.begun).toEqual([]);
  });

  it('leaves out what comes while the system has suspended sound, and asks for it back', async () => {
    const { audio, tones } = await tapped();
    tones.play('listening');
    await pass(1000);
    const [context] = audio.contexts;
    audio.allowed = false;
    context!.state = 'suspended';
    const resumes = context!.resumes;
    tones.play('accepted');
    await pass(5000);
    expect(audio.begun).toHaveLength(1);
    expect(context!.resumes).toBe(resumes + 1);
    tones.output();
    expect(context!.resumes).toBe(resumes + 2);
    context!.state = 'running';
    tones.play('accepted');
    await pass(10);
    expect(audio.begun).toHaveLength(2);
  });

  it('is silent at once when hushed', async () => {
    const { audio, tones } = await tapped();
    tones.play('begin');
    tones.play('halted');
    await pass(10);
    expect(audio.sounding.size).toBe(2);
    tones.hush();
    expect(audio.sounding.size).toBe(0);
  });

  it('asks for another tap where the browser still keeps sound off', async () => {
    const { tones } = await enter();
    const unlocking = expect(tones.unlock()).rejects.toThrow('tap once more');
    await pass(1000);
    await unlocking;
  });

  it('never suspends sound by itself and never replaces the context others have joined', async () => {
    const { audio, tones } = await tapped();
    const { context } = tones.output();
    tones.play('begin');
    await pass(120_000);
    expect(audio.contexts).toHaveLength(1);
    expect(audio.contexts[0]!.suspensions).toBe(0);
    expect(tones.output().context).toBe(context);
  });

  it('says so where the browser has no sound', async () => {
    const { tones } = await enter(false);
    tones.play('begin');
    expect(() => tones.output()).toThrow('current browser');
    await expect(tones.unlock()).rejects.toThrow('current browser');
  });
});
