import { describe, expect, it } from 'vitest';
import { createShippedVoice } from '../../src/voice/shippedVoice';
import { createSynthesis } from '../../src/voice/synthesis';
import { COACH_VOICE, SAYSO_VOICE } from '../../src/voice/voices';
import { clock, pass, stopTime } from './clock';
import { saying } from './contract';
import { soundRoom, type Trouble } from './soundRoom';

stopTime();

const enter = (trouble?: Trouble) => {
  const room = soundRoom(trouble);
  const synthesis = createSynthesis({ assetsBase: 'http://page/app/', spawn: room.spawn });
  return {
    ...room,
    synthesis,
    voice: createShippedVoice({ synthesis, output: room.output, clock }),
  };
};

describe('the shipped voice', () => {
  it('says a prepared line without making it again, at once', async () => {
    const { voice, made, sounding } = enter();
    voice.prepare(['Stand tall']);
    await pass(100);
    saying(voice, 'Stand tall');
    await pass(1);
    expect(sounding()?.text).toBe('Stand tall');
    expect(made).toEqual(['Stand tall']);
  });

  it('makes the line that is said before all that are only prepared', async () => {
    const { voice, made } = enter();
    voice.prepare(['one', 'two', 'three', 'four']);
    saying(voice, 'four');
    saying(voice, 'now');
    await pass(1000);
    expect(made).toEqual(['one', 'now', 'four', 'two', 'three']);
  });

  it('gives way within 30 ms to somebody who speaks, is still heard, and comes back', async () => {
    const { voice, sounding } = enter();
    saying(voice, 'Push the hips back');
    await pass(150);
    const usual = sounding()?.volume ?? 0;
    voice.duck(true);
    await pass(30);
    expect(sounding()?.volume).toBeLessThan(usual / 2);
    expect(sounding()?.volume).toBeGreaterThan(usual / 5);
    voice.duck(false);
    await pass(30);
    expect(sounding()?.volume).toBeCloseTo(usual, 3);
  });

  it('keeps a few dozen lines, not every line of a session', async () => {
    const { voice, made } = enter();
    const lines = Array.from({ length: 60 }, (_, at) => `line ${String(at)}`);
    voice.prepare(lines);
    await pass(10_000);
    voice.prepare(['line 59', 'line 0']);
    await pass(1000);
    expect(made).toHaveLength(61);
    expect(made.at(-1)).toBe('line 0');
  });

  it.each([
    ['cannot be loaded', { error: 'The voice file is missing (404).' }, 100],
    ['has no worker', { cannotStart: true }, 100],
    ['breaks', { breaksOnce: true }, 100],
    ['never answers', { silent: true }, 4000],
  ] as const)('fails a line where the voice %s', async (_, trouble, withinMs) => {
    const { voice } = enter(trouble);
    const line = saying(voice, 'Stand tall');
    await pass(withinMs);
    expect(line.ended.mock.calls).toEqual([['failed']]);
  });

  it('works again with a fresh worker after one broke', async () => {
    const { voice, workers } = enter({ breaksOnce: true });
    saying(voice, 'Stand tall');
    await pass(1000);
    const line = saying(voice, 'Stand tall');
    await pass(2000);
    expect(line.ended.mock.calls).toEqual([['spoken']]);
    expect(workers()).toBe(2);
  });

  it('fails a line at once where sound is suspended', async () => {
    const { voice, suspend } = enter();
    suspend();
    const line = saying(voice, 'Stand tall');
    await pass(100);
    expect(line.ended.mock.calls).toEqual([['failed']]);
    expect(line.started).not.toHaveBeenCalled();
  });

  it('fails a line whose sound is suspended under it, as by a phone call', async () => {
    const { voice, suspend } = enter();
    const line = saying(voice, 'Stand tall');
    await pass(300);
    suspend();
    await pass(2500);
    expect(line.ended.mock.calls).toEqual([['failed']]);
  });

  it('lends its synthesiser to other speakers, and closes', async () => {
    const { synthesis } = enter();
    const sayso = synthesis.make('knees forward', SAYSO_VOICE, 'now');
    const coach = synthesis.make('knees forward', COACH_VOICE, 'now');
    await pass(200);
    expect((await sayso).samples.length).toBeGreaterThan((await coach).samples.length);
    const open = synthesis.make('never made', SAYSO_VOICE, 'now');
    synthesis.close();
    await expect(open).rejects.toThrow('closed');
  });
});
