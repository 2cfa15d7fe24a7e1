import { describe, expect, it, vi } from 'vitest';
import type { Voice } from '../../src/ports';
import { pass } from './clock';
import type { Sounding } from './rudeSynthesis';

/** A voice in a room where its sound can be seen. */
export interface Room {
  voice: Voice;
  sounding(): Sounding | null;
}

/** Says a line and notes what is told of it. */
export const saying = (voice: Voice, text: string) => {
  const started = vi.fn();
  const ended = vi.fn();
  const cancel = voice.say(text, { started, ended });
  return { started, ended, cancel };
};

/** Long enough to make a line and begin it, shorter than a word. */
const SOON_MS = 150;
const LINE = 'Push the hips back';

/** What every voice must do. Time stands still but for `pass`; a word takes 0.4 s. */
export const voiceContract = (name: string, enter: () => Room | Promise<Room>): void => {
  describe(name, () => {
    it('says a line: begins once, ends once as spoken, then is silent', async () => {
      const { voice, sounding } = await enter();
      const line = saying(voice, LINE);
      await pass(SOON_MS);
      expect(sounding()?.text).toBe(LINE);
      expect(line.started).toHaveBeenCalledTimes(1);
      expect(line.ended).not.toHaveBeenCalled();
      await pass(5000);
      expect(line.ended.mock.calls).toEqual([['spoken']]);
      expect(line.started).toHaveBeenCalledTimes(1);
      expect(sounding()).toBeNull();
      await pass(60_000);
      expect(line.ended).toHaveBeenCalledTimes(1);
    });

    it('is silent within 50 ms of a cancel, and tells nothing more of that line', async () => {
      const { voice, sounding } = await enter();
      const line = saying(voice, LINE);
      await pass(SOON_MS);
      line.cancel();
      line.cancel();
      await pass(50);
      expect(sounding()).toBeNull();
      await pass(60_000);
      expect(line.ended).not.toHaveBeenCalled();
      expect(sounding()).toBeNull();
    });

    it('never begins a line that was cancelled before it began', async () => {
      const { voice, sounding } = await enter();
      const line = saying(voice, LINE);
      line.cancel();
      await pass(SOON_MS);
      expect(sounding()).toBeNull();
      await pass(5000);
      expect(line.started).not.toHaveBeenCalled();
    });

    it('says the next line at once after a cancel', async () => {
      const { voice, sounding } = await enter();
      const line = saying(voice, LINE);
      await pass(SOON_MS);
      line.cancel();
      const next = saying(voice, 'Stand tall');
      await pass(2 * SOON_MS);
      expect(sounding()?.text).toBe('Stand tall');
      line.cancel();
      await pass(5000);
      expect(next.ended.mock.calls).toEqual([['spoken']]);
    });

    it('lets a new line take over: the older one is silent and told as failed', async () => {
      const { voice, sounding } = await enter();
      const older = saying(voice, LINE);
      await pass(SOON_MS);
      const newer = saying(voice, 'Stand tall');
      expect(older.ended.mock.calls).toEqual([['failed']]);
      await pass(2 * SOON_MS);
      expect(sounding()?.text).toBe('Stand tall');
      await pass(5000);
      expect(newer.ended.mock.calls).toEqual([['spoken']]);
      expect(older.ended).toHaveBeenCalledTimes(1);
    });

    it('speaks a line from inside the end of another', async () => {
      const { voice } = await enter();
      const next = vi.fn();
      voice.say(LINE, { ended: () => voice.say('Stand tall', { ended: next }) });
      await pass(10_000);
      expect(next.mock.calls).toEqual([['spoken']]);
    });

    it('ends an empty line as spoken without a sound', async () => {
      const { voice, sounding } = await enter();
      const line = saying(voice, '');
      await pass(SOON_MS);
      expect(line.ended.mock.calls).toEqual([['spoken']]);
      expect(sounding()).toBeNull();
    });

    it('speaks louder, quieter, slower and faster from the next line on, within limits', async () => {
      const { voice, sounding } = await enter();
      const heard = async () => {
        const line = saying(voice, LINE);
        await pass(SOON_MS);
        const { volume, seconds } = sounding()!;
        line.cancel();
        await pass(SOON_MS);
        return { volume, seconds };
      };
      const usual = await heard();
      voice.adjust('louder');
      voice.adjust('slower');
      const more = await heard();
      expect(more.volume).toBeGreaterThan(usual.volume * 1.3);
      expect(more.seconds).toBeGreaterThan(usual.seconds * 1.05);
      for (let times = 0; times < 20; times += 1) {
        voice.adjust('quieter');
        voice.adjust('faster');
      }
      const least = await heard();
      expect(least.volume).toBeGreaterThan(0.1);
      expect(least.volume).toBeLessThan(usual.volume / 1.3);
      expect(least.seconds).toBeGreaterThan(usual.seconds * 0.7);
      expect(least.seconds).toBeLessThan(usual.seconds * 0.95);
      voice.adjust('louder');
      expect((await heard()).volume).toBeGreaterThan(least.volume * 1.3);
    });

    it('makes no sound while it prepares', async () => {
      const { voice, sounding } = await enter();
      voice.prepare([LINE, 'Stand tall']);
      await pass(SOON_MS);
      expect(sounding()).toBeNull();
    });
  });
};
