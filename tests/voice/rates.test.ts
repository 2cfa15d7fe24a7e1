import { describe, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { spokenTexts } from '../../src/cues/spoken';
import { WAYS, type Way } from '../../src/domain/areas';
import { createBrowserVoice } from '../../src/voice/browserVoice';
import { sharedManner } from '../../src/voice/manner';
import { fliteInNode } from '../../src/voice/node';
import { createShippedVoice } from '../../src/voice/shippedVoice';
import type { ShippedVoice } from '../../src/voice/voices';
import { clock, pass, stopTime } from './clock';
import { saying } from './contract';
import { rudeSynthesis } from './rudeSynthesis';

/** Words a minute that are understood (common practice, no source). */
const BANDS: Record<Way, [number, number]> = {
  'hands-on': [130, 150],
  alone: [130, 150],
  group: [110, 130],
};
const wordsIn = (text: string) => text.split(/\s+/).length;

/** Every twelfth line of the book that is more than a few words. */
const CUES = [...new Set(spokenTexts(bookOf()).map(({ text }) => text))]
  .filter((text) => wordsIn(text) >= 5 && !text.includes('{'))
  .filter((_, at) => at % 12 === 0);

/** How the shipped voice is asked to say its lines in that way. */
function askedOf(way: Way): ShippedVoice {
  const asked: ShippedVoice[] = [];
  const manner = sharedManner();
  manner.speakFor(way);
  const voice = createShippedVoice({
    synthesis: {
      make: (_, how) => {
        asked.push(how);
        return new Promise(() => undefined);
      },
      close: () => undefined,
    },
    output: () => {
      throw new Error('nothing is played here');
    },
    clock,
    manner,
  });
  voice.prepare(['Stand tall.']);
  return asked[0]!;
}

/** Ways that are spoken alike are spoken once. */
const secondsAsked = new Map<string, number>();

describe('the shipped voice', () => {
  it.each(WAYS)('says the cues of the book, %s, in the band of words a minute', async (way) => {
    const flite = await fliteInNode();
    const asked = askedOf(way);
    const key = JSON.stringify(asked);
    const seconds =
      secondsAsked.get(key) ??
      CUES.reduce((sum, text) => {
        const { samples, sampleRate } = flite.synthesize(text, asked);
        return sum + samples.length / sampleRate;
      }, 0);
    secondsAsked.set(key, seconds);
    const words = CUES.reduce((sum, text) => sum + wordsIn(text), 0);
    const wordsPerMinute = (words * 60) / seconds;
    const [least, most] = BANDS[way];
    expect(CUES.length).toBeGreaterThan(40);
    expect(wordsPerMinute).toBeGreaterThan(least);
    expect(wordsPerMinute).toBeLessThan(most);
  });
});

describe('a voice of the browser, once it has said a line', () => {
  stopTime();
  const LINE = 'Push the hips back until the bar passes the knee';

  it.each(WAYS.flatMap((way) => [0.25, 0.4, 0.55].map((seconds) => [way, seconds] as const)))(
    '%s, a word in %s s when left alone, is in the band',
    async (way, secondsAWord) => {
      const { synthesis, utter, sounding } = rudeSynthesis({ secondsAWord });
      const manner = sharedManner();
      manner.speakFor(way);
      const voice = createBrowserVoice({ synthesis, utter, clock, language: 'en', manner });
      saying(voice, LINE);
      await pass(30_000);
      saying(voice, LINE);
      await pass(100);
      const wordsPerMinute = (wordsIn(LINE) * 60) / sounding()!.seconds;
      const [least, most] = BANDS[way];
      expect(wordsPerMinute).toBeGreaterThan(least);
      expect(wordsPerMinute).toBeLessThan(most);
    },
  );

  it('changes its pace with the way, and "slower" counts in each', async () => {
    const { synthesis, utter, sounding } = rudeSynthesis();
    const manner = sharedManner();
    const voice = createBrowserVoice({ synthesis, utter, clock, language: 'en', manner });
    const secondsOf = async (way: Way) => {
      manner.speakFor(way);
      saying(voice, LINE);
      await pass(100);
      const seconds = sounding()!.seconds;
      await pass(30_000);
      return seconds;
    };
    await secondsOf('hands-on');
    const usual = [await secondsOf('hands-on'), await secondsOf('group')];
    expect(usual[1]).toBeGreaterThan(usual[0]! * 1.1);
    voice.adjust('slower');
    const slower = [await secondsOf('hands-on'), await secondsOf('group')];
    slower.forEach((seconds, at) => expect(seconds).toBeGreaterThan(usual[at]! * 1.05));
  });
});
