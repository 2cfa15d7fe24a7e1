import { expect, it } from 'vitest';
import { secondsOf } from '../../src/cli/durations';
import { rehearse } from '../../src/cli/rehearsing';
import { bookOf } from '../../src/cli/verb';
import { WAYS, type Way } from '../../src/domain/areas';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import type { CueBook } from '../../src/domain/script';

const shipped = bookOf();
const book: CueBook = {
  ...shipped,
  routines: { all: { ...shipped.routines['readiness']!, ways: [...WAYS] } },
};

/** Minutes that are told a minute after the beginning. */
function minutesTold(way: Way, before: string[] = []): number {
  const said = [...before.map((text, at) => [20 + at, text] as const), [60, 'time left'] as const];
  const { timeline } = rehearse({
    ...{ book, routine: 'all', way, settings: DEFAULT_SETTINGS, secondsOf },
    replies: {
      inTurn: [],
      timed: said.map(([atSeconds, text], at) => ({ atSeconds, text, line: at + 1, audio: null })),
    },
  });
  const told = timeline.flatMap((event) =>
    event.type === 'cue' ? (/^About (\d+) minutes?/.exec(event.text)?.[1] ?? []) : [],
  );
  return Number(told[0]);
}

it('the time that is left is longer for a group, and after "slower", since more slowly is spoken', () => {
  const toOne = minutesTold('hands-on');
  expect(toOne).toBeGreaterThan(10);
  expect(minutesTold('group')).toBeGreaterThan(toOne + 1);
  expect(minutesTold('hands-on', ['slower', 'slower'])).toBeGreaterThan(toOne + 1);
});
