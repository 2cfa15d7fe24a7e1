import { expect, it } from 'vitest';
import { loadBook } from '../../../src/cues/fromFolder';
import { understand } from '../../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';

const book = loadBook('scripts-cues', 'en');
const PROMPTS = ['idle', 'set/bell-hinge', 'check/overhead-passive'];
const heard = (prompt: string, text: string) =>
  understand(book, prompt, text, { ...DEFAULT_SETTINGS, confidence: 1 });

it.each([
  ['fewer words', 'fewer-words'],
  ['less talking please', 'fewer-words'],
  ['too many words', 'fewer-words'],
  ['just count', 'fewer-words'],
  ['more words', 'more-words'],
  ['explain the drill', 'more-words'],
  ['not enough words', 'more-words'],
  // What is near them stays what it was.
  ['one more', 'again'],
  ['less weight', 'lighter'],
  ['more weight', 'heavier'],
])('"%s" is %s wherever it is said', (text, command) => {
  for (const prompt of PROMPTS) {
    expect(heard(prompt, text)).toMatchObject({ verdict: 'accept', reply: { command } });
  }
});

it.each(['keep it short', 'tell me more', 'talk me through it', 'more words than I expected'])(
  '"%s" is said to the athlete',
  (text) => {
    for (const prompt of PROMPTS) expect(heard(prompt, text).verdict).toBe('ignore');
  },
);
