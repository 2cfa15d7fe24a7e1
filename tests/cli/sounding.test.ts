import { describe, expect, it } from 'vitest';
import { secondsOf } from '../../src/cli/durations';
import { rehearse, type Rehearsed } from '../../src/cli/rehearsing';
import { rehearsalToMix, soundFileOf } from '../../src/cli/sounding';
import { bookOf } from '../../src/cli/verb';
import { WAYS, type Way } from '../../src/domain/areas';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import type { CueBook } from '../../src/domain/script';
import { soundOf } from '../../src/ear/wav';
import { spokenSamples } from '../../src/mixing/spoken';
import { fliteInNode } from '../../src/voice/node';

const shipped = bookOf();
const { hinge } = shipped.routines;
/** No routine that is shipped is led for a group, so one is opened to it. */
const book: CueBook = {
  ...shipped,
  routines: { ...shipped.routines, hinge: { ...hinge!, ways: [...WAYS] } },
};

const session = (way: Way, replies = ['clean', 'clean']): Rehearsed =>
  rehearse({
    ...{ book, routine: 'hinge', way, settings: DEFAULT_SETTINGS, secondsOf },
    replies: {
      inTurn: replies.map((text, at) => ({ line: at + 1, text, audio: null })),
      timed: [],
    },
  });
const wordsIn = (text: string) => text.split(/\s+/).length;

/** Words a minute that are understood (common practice, no source). */
const BANDS: Record<Way, [number, number]> = {
  'hands-on': [130, 150],
  alone: [130, 150],
  group: [110, 130],
};

describe('what would be heard of a rehearsal', () => {
  it.each(WAYS)('is spoken at the pace of the way, as in the app: %s', async (way) => {
    const flite = await fliteInNode();
    const lines = session(way)
      .said.filter(({ text, isCutOff }) => wordsIn(text) >= 5 && !isCutOff)
      .slice(0, 9);
    const made = await Promise.all(
      lines.map((line) => spokenSamples(flite.synthesize, line, 16000)),
    );
    const seconds = made.map(({ length }) => length / 16000);
    const words = lines.reduce((sum, { text }) => sum + wordsIn(text), 0);
    const wordsPerMinute = (words * 60) / seconds.reduce((sum, each) => sum + each, 0);
    const [least, most] = BANDS[way];
    expect(lines.length).toBeGreaterThan(8);
    expect(wordsPerMinute).toBeGreaterThan(least);
    expect(wordsPerMinute).toBeLessThan(most);
    lines.forEach(({ text, fromSeconds, toSeconds }, at) =>
      expect(seconds[at], text).toBeLessThanOrEqual(toSeconds - fromSeconds + 0.001),
    );
  });

  it('leaves a group longer for each cue by the same share, and the counts as they are', () => {
    const pieces = (way: Way, isCount: boolean) =>
      session(way).said.filter((piece) => (piece.isCount ?? false) === isCount && !piece.isCutOff);
    const seconds = ({ fromSeconds, toSeconds }: { fromSeconds: number; toSeconds: number }) =>
      toSeconds - fromSeconds;
    const slow = pieces('group', false);
    expect(slow.length).toBeGreaterThan(8);
    for (const piece of slow) {
      expect(seconds(piece) / secondsOf(piece.text), piece.text).toBeCloseTo(140 / 120, 2);
    }
    expect(pieces('group', true).map(seconds)).toEqual(
      pieces('hands-on', true).map((piece) => expect.closeTo(seconds(piece), 3)),
    );
  });

  it('tells the time that a cue really takes, to the group as to one', () => {
    const { timeline, said } = session('group');
    const cue = timeline.find((event) => event.type === 'cue');
    expect(cue?.text).toBe(said[0]?.text);
    expect(cue?.seconds).toBeCloseTo(said[0]!.toSeconds - said[0]!.fromSeconds, 3);
  });

  it('gets slower, and louder, once that was asked for', async () => {
    const asked = session('hands-on', ['slower', 'louder', 'stop', 'yes']);
    const first = asked.said.find(({ isCount }) => !isCount)!;
    const last = asked.said.findLast(({ isCount }) => !isCount)!;
    const share = ({ text, fromSeconds, toSeconds }: typeof first) =>
      (toSeconds - fromSeconds) / secondsOf(text);
    expect(share(first)).toBeCloseTo(1, 2);
    expect(share(last)).toBeCloseTo(1.13, 2);
    const both = await soundFileOf(rehearsalToMix({ said: [first, last], timeline: [] }));
    const { samples, sampleRate } = soundOf(both, 'asked.wav');
    const peak = ({ fromSeconds, toSeconds }: typeof first) =>
      samples
        .subarray(Math.round(fromSeconds * sampleRate), Math.round(toSeconds * sampleRate))
        .reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    expect(peak(last)).toBeGreaterThan(peak(first) * 1.3);
  });
});
