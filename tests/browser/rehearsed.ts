import { secondsOf } from '../../src/cli/durations';
import { rehearse } from '../../src/cli/rehearsing';
import { bookOf } from '../../src/cli/verb';
import { DEFAULT_SETTINGS } from '../../src/domain/log';

/** When the questions of a hinge session open, seconds, if these replies are given in turn. */
export function opensAtSeconds(texts: string[]): number[] {
  const { timeline } = rehearse({
    book: bookOf(),
    routine: 'hinge',
    way: 'hands-on',
    settings: DEFAULT_SETTINGS,
    secondsOf,
    replies: {
      inTurn: texts.map((text, index) => ({ line: index + 1, text, audio: null })),
      timed: [],
    },
  });
  return timeline.flatMap((event) => (event.type === 'listen' ? [event.atSeconds] : []));
}
