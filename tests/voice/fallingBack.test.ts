import { describe, expect, it, vi } from 'vitest';
import type { SayOptions, Voice } from '../../src/ports';
import { createBrowserVoice } from '../../src/voice/browserVoice';
import { fallingBack } from '../../src/voice/fallingBack';
import { clock, pass, stopTime } from './clock';
import { saying } from './contract';
import { rudeSynthesis } from './rudeSynthesis';

stopTime();

/** A voice that does as it is told, after a second. */
const puppet = (plan: () => 'spoken' | 'failed') => {
  const said: string[] = [];
  const voice: Voice = {
    say(text, { started, ended }: SayOptions) {
      said.push(text);
      started?.();
      const timer = setTimeout(() => ended(plan()), 1000);
      return () => clearTimeout(timer);
    },
    prepare: vi.fn(),
    adjust: vi.fn(),
    duck: vi.fn(),
  };
  return { ...voice, said };
};

describe('two voices', () => {
  it('say the same line again with the other where the first fails; it begins once', async () => {
    const [first, then] = [puppet(() => 'failed'), puppet(() => 'spoken')];
    const line = saying(fallingBack(first, then), 'Stand tall');
    await pass(1500);
    expect(line.ended).not.toHaveBeenCalled();
    await pass(1000);
    expect([first.said, then.said]).toEqual([['Stand tall'], ['Stand tall']]);
    expect(line.ended.mock.calls).toEqual([['spoken']]);
    expect(line.started).toHaveBeenCalledTimes(1);
  });

  it('tell a line as failed only when neither could say it', async () => {
    const line = saying(
      fallingBack(
        puppet(() => 'failed'),
        puppet(() => 'failed'),
      ),
      'Stand tall',
    );
    await pass(5000);
    expect(line.ended.mock.calls).toEqual([['failed']]);
  });

  it('stop asking a voice first that failed twice in a row, and go back where the other fails', async () => {
    let firstWorks = false;
    const first = puppet(() => (firstWorks ? 'spoken' : 'failed'));
    const then = puppet(() => (firstWorks ? 'failed' : 'spoken'));
    const voice = fallingBack(first, then);
    const sayAll = async (...texts: string[]) => {
      for (const text of texts) {
        const line = saying(voice, text);
        await pass(3000);
        expect(line.ended.mock.calls).toEqual([['spoken']]);
      }
    };
    await sayAll('one', 'two', 'three', 'four');
    expect(first.said).toEqual(['one', 'two']);
    firstWorks = true;
    await sayAll('five', 'six', 'seven');
    expect(first.said.slice(2)).toEqual(['five', 'six', 'seven']);
    expect(then.said).toEqual(['one', 'two', 'three', 'four', 'five', 'six']);
  });

  it('do not hold one accident against a voice', async () => {
    let accidents = 1;
    const first = puppet(() => (accidents-- > 0 ? 'failed' : 'spoken'));
    const then = puppet(() => 'spoken');
    const voice = fallingBack(first, then);
    for (const text of ['one', 'two', 'three']) {
      saying(voice, text);
      await pass(3000);
    }
    expect(first.said).toEqual(['one', 'two', 'three']);
    expect(then.said).toEqual(['one']);
  });

  it('never say a cancelled line again with the other', async () => {
    const [first, then] = [puppet(() => 'failed'), puppet(() => 'spoken')];
    const line = saying(fallingBack(first, then), 'Stand tall');
    await pass(1500);
    line.cancel();
    await pass(5000);
    expect(line.ended).not.toHaveBeenCalled();
    expect(then.said).toHaveLength(1);
  });

  it('both prepare until one has proved itself, and both change their manner', async () => {
    const [first, then] = [puppet(() => 'spoken'), puppet(() => 'spoken')];
    const voice = fallingBack(first, then);
    voice.prepare(['one']);
    expect(then.prepare).toHaveBeenCalledTimes(1);
    saying(voice, 'one');
    await pass(2000);
    voice.prepare(['two']);
    expect(first.prepare).toHaveBeenCalledTimes(2);
    expect(then.prepare).toHaveBeenCalledTimes(1);
    voice.duck(true);
    expect([first.duck, then.duck].map((fn) => vi.mocked(fn).mock.calls)).toEqual([
      [[true]],
      [[true]],
    ]);
    voice.adjust('louder');
    expect([first.adjust, then.adjust].map((fn) => vi.mocked(fn).mock.calls)).toEqual([
      [['louder']],
      [['louder']],
    ]);
  });

  it('leave no sound of a browser that broke off when the other begins', async () => {
    const browser = rudeSynthesis({ neverEnds: true });
    const { synthesis, utter } = browser;
    const first = createBrowserVoice({ synthesis, utter, clock, language: 'en' });
    const then = puppet(() => 'spoken');
    saying(fallingBack(first, then), 'Stand tall');
    await pass(500);
    expect(browser.sounding()).not.toBeNull();
    await pass(4000);
    expect(then.said).toEqual(['Stand tall']);
    expect(browser.sounding()).toBeNull();
  });
});
