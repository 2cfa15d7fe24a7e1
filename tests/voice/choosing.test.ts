import { describe, expect, it } from 'vitest';
import { choicesOf } from '../../src/voice/choosing';
import { createBrowserVoice } from '../../src/voice/browserVoice';
import { measuredPaces, pacesFrom, USUAL_WORDS_PER_MINUTE } from '../../src/voice/pace';
import { clock, pass, stopTime } from './clock';
import { saying } from './contract';
import { rudeSynthesis } from './rudeSynthesis';

stopTime();

const voice = (name: string, more: Partial<SpeechSynthesisVoice> = {}) =>
  ({
    name,
    voiceURI: name,
    lang: 'en-GB',
    localService: true,
    default: false,
    ...more,
  }) as SpeechSynthesisVoice;

describe('the voices of a device', () => {
  it('are those of the language that need no network, the best first', () => {
    const choices = choicesOf(
      [
        voice('Anna', { lang: 'de-DE' }),
        voice('eSpeak English'),
        voice('Far away', { localService: false }),
        voice('Plain English'),
        voice('Usual English', { default: true }),
        voice('English (Enhanced)', { lang: 'en_US' }),
      ],
      'en',
    );
    expect(choices.map(({ name }) => name)).toEqual([
      'English (Enhanced)',
      'Usual English',
      'Plain English',
      'eSpeak English',
    ]);
    expect(choices.map(({ quality }) => quality)).toEqual(['good', 'plain', 'plain', 'poor']);
  });

  it('are spoken with as chosen, and with the best where the chosen one is gone', async () => {
    const voices = [voice('Good (Enhanced)'), voice('Chosen')];
    for (const [chosen, expected] of [
      ['Chosen', 'Chosen'],
      ['Removed since', 'Good (Enhanced)'],
      [null, 'Good (Enhanced)'],
    ] as const) {
      const { synthesis, utter, said } = rudeSynthesis({ voices });
      const speaker = createBrowserVoice({
        ...{ synthesis, utter, clock, language: 'en' },
        chosen: () => chosen,
      });
      saying(speaker, 'Stand tall');
      await pass(100);
      expect(said.at(-1)?.voice?.name).toBe(expected);
    }
  });
});

describe('the pace of a voice', () => {
  const LINE = 'Push the hips back until the bar passes the knee';
  const WORDS = 10;
  /** Words a minute of the last of some lines, by a voice that says a word in 0.4 s at rate 1. */
  const spokenPace = async (lines: number) => {
    const { synthesis, utter, said } = rudeSynthesis();
    const speaker = createBrowserVoice({ synthesis, utter, clock, language: 'en' });
    for (let line = 0; line < lines; line += 1) {
      saying(speaker, LINE);
      await pass(30_000);
    }
    return (60 / 0.4) * (said.at(-1)?.rate ?? 0);
  };

  it('is the usual one from the second line on, whatever the voice speaks by itself', async () => {
    expect(await spokenPace(2)).toBeCloseTo(USUAL_WORDS_PER_MINUTE, 0);
  });

  it('is measured for each voice, in the middle of its lines, and kept', () => {
    let kept = '';
    const paces = measuredPaces({}, (known) => {
      kept = JSON.stringify(known);
    });
    for (const seconds of [3, 3, 30, 3, 3]) paces.spoke('slow', LINE, seconds * 1.5, 1);
    paces.spoke('quick', LINE, 3, 1);
    expect(paces.naturalOf('slow')).toBe(Math.round((WORDS * 60) / 4.5));
    const again = measuredPaces(pacesFrom(kept));
    expect(again.naturalOf('slow')).toBe(paces.naturalOf('slow'));
    expect(again.rateFor('slow', 140)).toBeGreaterThan(again.rateFor('quick', 140));
    expect(again.naturalOf('never heard')).toBeNull();
  });

  it('is not measured from a word or two, nor from what was kept damaged', () => {
    const paces = measuredPaces();
    paces.spoke('voice', 'Stay there', 5, 1);
    paces.spoke('voice', LINE, 0, 1);
    expect(paces.naturalOf('voice')).toBeNull();
    expect(pacesFrom('{"voice":["x"],"other":[120]}')).toEqual({ other: [120] });
    expect(pacesFrom('{{')).toEqual({});
  });
});
