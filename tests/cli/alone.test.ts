import { describe, expect, it } from 'vitest';
import { secondsIn } from '../../src/cli/durations';
import { rehearse } from '../../src/cli/rehearsing';
import { bookOf } from '../../src/cli/verb';
import { DEFAULT_SETTINGS } from '../../src/domain/log';

/** Words of seeing, which somebody who is alone cannot do of themselves. */
const SEEING: Record<string, RegExp> = {
  en: /\byou (see|saw|seen|watch|watched)\b/i,
  es: /\bhas visto\b|\bves\b/i,
};

describe.each(
  ['en', 'es'].flatMap((language) =>
    Object.values(bookOf(language).routines)
      .filter(({ ways }) => ways.includes('alone'))
      .map(({ id }) => [language, id] as const),
  ),
)('alone, in %s: %s', (language, routine) => {
  const failed = language === 'en' ? 'limited' : 'corto';
  const held = language === 'en' ? 'pass' : 'bien hecho';
  const help = language === 'en' ? 'help' : 'ayuda';

  it('asks what an athlete can answer, and never what they see', () => {
    const book = bookOf(language);
    const replies = [help, failed, failed, failed, ...Array<string>(60).fill(held)];
    const { timeline } = rehearse({
      ...{ book, routine, way: 'alone', settings: DEFAULT_SETTINGS },
      secondsOf: secondsIn(language),
      replies: {
        inTurn: replies.map((text, at) => ({ line: at + 1, text, audio: null })),
        timed: [],
      },
    });
    const cues = timeline.flatMap((event) => (event.type === 'cue' ? [event.text] : []));
    expect(cues.some((text) => text.includes('?'))).toBe(true);
    expect(cues.filter((text) => SEEING[language]!.test(text))).toEqual([]);
  });
});
