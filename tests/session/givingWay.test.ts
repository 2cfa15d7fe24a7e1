import { describe, expect, it } from 'vitest';
import { openBench, type Bench } from './bench';

/** In the middle of the first line that is said. */
const speaking = () => {
  const bench = openBench();
  bench.seconds(0.5);
  expect(bench.sounding()).not.toBeNull();
  return bench;
};
/** Words that began while the line was being said. */
const overVoice = (bench: Bench, text: string, confidence = 0.9) =>
  bench.ear({ type: 'words', text, confidence, prompt: bench.prompt(), beganSecondsAgo: 0.3 });
const ducked = (bench: ReturnType<typeof openBench>) => bench.ducks.map(({ isDucked }) => isDucked);

describe('a line that is being said', () => {
  it('gives way the moment that somebody speaks, and goes on when it was nothing', () => {
    const bench = speaking();
    bench.ear({ type: 'onset' });
    expect(bench.ducks).toEqual([{ isDucked: true, atMilliseconds: bench.clock.now() }]);
    const line = bench.sounding();
    bench.ear({ type: 'nothing' });
    expect(ducked(bench)).toEqual([true, false]);
    expect(bench.sounding()).toBe(line);
  });

  it('is itself again after two seconds of talk that say nothing', () => {
    const bench = speaking();
    bench.ear({ type: 'onset' });
    bench.seconds(2.1);
    expect(ducked(bench)).toEqual([true, false]);
  });

  it.each([
    ['nothing more is heard of it', () => undefined],
    ['it was nothing', (bench: Bench) => bench.ear({ type: 'nothing' })],
    ['it was talk', (bench: Bench) => bench.hear('we were there on Sunday')],
    ['it was a reply', (bench: Bench) => overVoice(bench, 'knees came forward')],
    ['it was half a stop', (bench: Bench) => overVoice(bench, 'stop', 0.2)],
  ])('is never cut by mistake, so it is said once and to its end: %s', (_, then) => {
    const undisturbed = speaking();
    const bench = speaking();
    const [first] = bench.cues();
    bench.ear({ type: 'onset' });
    bench.seconds(0.4);
    then(bench);
    undisturbed.seconds(0.4);
    for (let step = 0; step < 100; step += 1) {
      bench.seconds(0.1);
      undisturbed.seconds(0.1);
      expect(bench.sounding()).toBe(undisturbed.sounding());
    }
    expect(bench.cues().filter((text) => text === first)).toHaveLength(1);
    expect(ducked(bench)).toEqual([true, false]);
  });

  it('gives way once, or it would never be heard in a room full of talk; so does the next', () => {
    const bench = speaking();
    const [first] = bench.cues();
    for (let times = 0; times < 3; times += 1) {
      bench.ear({ type: 'onset' });
      bench.ear({ type: 'nothing' });
    }
    expect(ducked(bench)).toEqual([true, false]);
    bench.clock.runUntil(() => bench.sounding() !== null && bench.cues().at(-1) !== first, 60_000);
    bench.ear({ type: 'onset' });
    expect(ducked(bench)).toEqual([true, false, true]);
  });

  it('is silent at once for an understood stop, and the next line is as loud as ever', () => {
    const bench = speaking();
    const line = bench.sounding();
    bench.ear({ type: 'onset' });
    bench.hear('stop');
    expect(bench.sounding()).not.toBe(line);
    expect(ducked(bench)).toEqual([true, false]);
  });

  it('leaves the voice alone where nothing is being said', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.ear({ type: 'onset' });
    bench.ear({ type: 'nothing' });
    expect(bench.ducks).toEqual([]);
  });
});
