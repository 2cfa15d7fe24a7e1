import { setImmediate } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { wordsOf } from '../../src/cues/grammarWords';
import type { CoachEar, Reading } from '../../src/ear/coach/coachEar';
import { UNFITTED } from '../../src/ear/coach/coachEar';
import { lexiconFor, type Lexicon } from '../../src/ear/lexicon';
import { createCoach } from '../../src/main/coach/coach';
import { STRANGER, type KnownCoach } from '../../src/main/coach/stored';
import { readingsOf } from '../../src/main/coach/voiceCheck';
import { takeCallWord, takeOwnWords } from '../../src/main/coach/words';

const book = loadBook('scripts-cues', 'en');
const lexicon = lexiconFor(wordsOf(book));

function met(known: Partial<KnownCoach> = {}, refuses = false) {
  const saved: KnownCoach[] = [];
  const fits: { coach: CoachEar; lexicon: Lexicon }[] = [];
  let changes = 0;
  const coach = createCoach({
    book,
    lexicon,
    shelf: {
      load: () => ({ coach: { ...STRANGER, ...known }, trouble: null }),
      save: (now) => {
        saved.push(now);
        return refuses ? 'refused' : null;
      },
    },
    fitEar: (learnt, said) => fits.push({ coach: learnt, lexicon: said }),
    changed: () => {
      changes += 1;
    },
  });
  const hears = (words: string, prompt = 'check/hinge-unloaded') =>
    coach.grammarFor(prompt).arcs.some((arc) => arc.words === words);
  return { coach, saved, fits, hears, changes: () => changes };
}
const untilFitted = async (fits: unknown[], count: number) => {
  while (fits.length < count) await setImmediate();
};

const SHORT = { kind: 'results', id: 'short' } as const;
const readings: Reading[] = Array.from({ length: 3 }, () => ({
  text: 'limited',
  phones: 'L IH M AH CH AH D'.split(' '),
  confidence: 0.7,
}));

describe('the coach of a device', () => {
  test('own words that were checked are heard at once, pronounced, kept, and taken away again', () => {
    const { coach, saved, fits, hears } = met();
    expect(takeOwnWords(coach, SHORT, 'Cushty-ish!')).toBeNull();
    expect(coach.state().ownWords).toEqual([{ ...SHORT, words: 'cushty ish' }]);
    expect(hears('cushty')).toBe(true);
    expect(saved.at(-1)?.ownWords[0]?.said['cushty']).toEqual([['K', 'UH', 'SH', 'T', 'IY']]);
    return untilFitted(fits, 1).then(() => {
      expect(fits.at(-1)?.lexicon['cushty']).toBeDefined();
      coach.removeWords({ ...SHORT, words: 'cushty ish' });
      expect(hears('cushty')).toBe(false);
      expect(saved.at(-1)?.ownWords).toEqual([]);
    });
  });

  test('own words that cannot be told apart change nothing', () => {
    const { coach, saved } = met();
    expect(takeOwnWords(coach, SHORT, 'fast')).toContain('sounds too much like “faster”');
    expect(saved).toEqual([]);
  });

  test('the call word is checked, stands before every reply, and can be switched off', async () => {
    const { coach, fits, hears, saved } = met();
    expect(takeCallWord(coach, 'go')).toContain('go');
    expect(saved).toEqual([]);
    expect(takeCallWord(coach, 'Marmalade')).toBeNull();
    await untilFitted(fits, 1);
    expect(hears('marmalade')).toBe(true);
    expect(fits.at(-1)?.lexicon['marmalade']).toBeDefined();
    expect(takeCallWord(coach, ' ')).toBeNull();
    await untilFitted(fits, 2);
    expect(hears('marmalade')).toBe(false);
    expect(coach.state().callWord).toBeNull();
  });

  test('a voice check teaches the ear, which forgets it in one step', async () => {
    const { coach, fits, saved, changes } = met();
    await coach.learn(readings);
    expect(fits.at(-1)?.coach.variants).toEqual({ limited: ['L IH M AH CH AH D'] });
    expect(fits.at(-1)?.lexicon['limited']).toContainEqual(readings[0]?.phones);
    expect(coach.state().readings).toBe(3);
    coach.forgetVoice();
    await untilFitted(fits, 2);
    expect(fits.at(-1)?.coach).toEqual(UNFITTED);
    expect(saved.at(-1)?.readings).toEqual([]);
    expect(changes()).toBe(2);
  });

  test('a stranger is heard by the book alone, a reader without the call word', async () => {
    const { coach, fits, hears } = met({
      readings,
      callWord: 'marmalade',
      callWordSaid: lexiconFor(['marmalade']),
      ownWords: [{ ...SHORT, words: 'cushty', said: lexiconFor(['cushty']) }],
    });
    await coach.fitEar('coach');
    expect([hears('cushty'), hears('marmalade')]).toEqual([true, true]);
    await coach.fitEar('reader');
    expect([hears('cushty'), hears('marmalade')]).toEqual([true, false]);
    expect(fits.at(-1)?.coach).toEqual(UNFITTED);
    await coach.fitEar('stranger');
    expect([hears('cushty'), hears('marmalade')]).toEqual([false, false]);
  });

  test('who speaks last is heard, however long the fitting before took', async () => {
    const { coach, fits } = met({ readings });
    const slow = coach.fitEar('coach');
    await coach.fitEar('stranger');
    await slow;
    expect(fits).toHaveLength(1);
    expect(fits[0]?.coach).toEqual(UNFITTED);
  });

  test('a session that goes on keeps the call word it was begun with', async () => {
    const { coach, fits, hears } = met({ callWord: null });
    await coach.fitEar('coach', 'marmalade');
    expect(hears('marmalade')).toBe(true);
    expect(fits.at(-1)?.lexicon['marmalade']).toBeDefined();
  });

  test('where nothing can be kept it counts for this visit, and says so', async () => {
    const { coach, fits } = met({}, true);
    await coach.learn(readings);
    expect(coach.state()).toMatchObject({ readings: 3, trouble: 'refused' });
    expect(fits.at(-1)?.coach.variants).toHaveProperty('limited');
  });
});

test('what is learnt from is every reading with its phones, of lines that were not left out', () => {
  const heard = { text: 'pass', confidence: 0.9, phones: ['P', 'AE', 'S'], isRight: true };
  const line = { prompt: 'idle', text: 'pass', synonyms: [] };
  expect(
    readingsOf([
      { ...line, isSkipped: false, tries: [heard, { ...heard, text: 'pause', isRight: false }] },
      { ...line, isSkipped: false, tries: [{ ...heard, phones: [] }] },
      { ...line, isSkipped: true, tries: [heard] },
    ]),
  ).toEqual([
    { text: 'pass', phones: ['P', 'AE', 'S'], confidence: 0.9 },
    { text: 'pass', phones: ['P', 'AE', 'S'], confidence: null },
  ]);
});
