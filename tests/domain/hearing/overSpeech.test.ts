import { describe, expect, it } from 'vitest';
import { loadBook } from '../../../src/cues/fromFolder';
import { understandOverSpeech } from '../../../src/domain/hearing/overSpeech';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';

const book = loadBook('scripts-cues', 'en');
const over = (line: string, text: string, confidence: number) =>
  understandOverSpeech(book, { text }, { ...DEFAULT_SETTINGS, confidence }, line).verdict;

const ASKS_PAIN = 'How much does it hurt, from zero to ten?';
const TELLS_STOP = 'If anything hurts, say stop.';

describe('words that Sayso itself is saying', () => {
  it.each(['hurt', 'hurts', 'it hurts'])('"%s" is no pain while it is asked about', (text) => {
    expect(over(ASKS_PAIN, text, 1)).toBe('ignore');
  });

  it('pain in other words than the line’s own counts', () => {
    expect(over(ASKS_PAIN, 'sharp pain', 1)).toBe('accept');
    expect(over('Stand tall.', 'it hurts', 1)).toBe('accept');
  });

  it('a stop word of the line’s own counts where it is very clear, and any other sooner', () => {
    expect(over(TELLS_STOP, 'stop', 1)).toBe('accept');
    expect(over(TELLS_STOP, 'stop', 0.5)).toBe('ignore');
    expect(over('Stand tall.', 'stop', 0.5)).toBe('accept');
  });
});
