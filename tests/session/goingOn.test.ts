import { expect, it } from 'vitest';
import { openBench, STARTED } from './bench';

const HOUR = 3_600_000;

/** A session that was cut off three seconds after its first question opened. */
function cutOff() {
  const bench = openBench();
  bench.untilAsked('check/hinge-unloaded');
  bench.seconds(3);
  return bench;
}

it('where the clock was set back by an hour before it goes on, it asks again, and time counts', () => {
  const before = cutOff();
  const bench = openBench({ log: before.entries, atMilliseconds: STARTED - HOUR });
  bench.untilAsked('check/hinge-unloaded');
  const asked = bench.cues().length;
  bench.seconds(20);
  // Asked again into silence, as ever; until now it would have waited for an hour.
  expect(bench.cues().length).toBeGreaterThan(asked);
  bench.hear('clean');
  bench.untilAsked('check/hinge-bar');
  const seconds = bench.entries.map(({ atSeconds }) => atSeconds);
  expect([...seconds].sort((a, b) => a - b)).toEqual(seconds);
  const last = before.entries.at(-1)?.atSeconds ?? 0;
  expect(seconds.at(-1)).toBeGreaterThan(last + 20);
  expect(seconds.at(-1)).toBeLessThan(last + 120);
  // Each has its own number, whatever the clock shows.
  expect(new Set(bench.entries.map(({ id }) => id)).size).toBe(bench.entries.length);
});

it('killed again while it notes the time away, it asks its question and is not paused', () => {
  const before = cutOff();
  const again = openBench({ log: before.entries, atMilliseconds: STARTED + HOUR });
  const half = [...before.entries, ...again.entries.slice(0, 1)];
  expect(half.at(-1)?.type).toBe('paused');
  const bench = openBench({ log: half, atMilliseconds: STARTED + 2 * HOUR });
  bench.untilAsked('check/hinge-unloaded');
  expect(bench.of('phase').map(({ phase }) => phase)).not.toContain('paused');
  expect(bench.logged('resumed')).toHaveLength(1);
});

it('a pause that somebody asked for still holds after the page was killed', () => {
  const before = cutOff();
  before.hand({ command: 'pause' });
  const bench = openBench({ log: before.entries, atMilliseconds: STARTED + HOUR });
  bench.seconds(60);
  expect(bench.of('phase').at(-1)?.phase).toBe('paused');
});
