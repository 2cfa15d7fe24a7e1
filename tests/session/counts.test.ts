import { describe, expect, it } from 'vitest';
import { openBench } from './bench';

/** Counts of one exhale, in the order they sound. */
function exhaled() {
  const bench = openBench({ routine: 'overhead' });
  bench.clock.runUntil(() => bench.counts.length >= 4 || bench.isOver(), 3600_000);
  const beats = bench.of('beat').slice(0, bench.counts.length);
  return { bench, counts: bench.counts, beats };
}

describe('the counts of an exhale', () => {
  it('are a second apart, each handed over before it sounds', () => {
    const { counts, bench } = exhaled();
    expect(counts.length).toBeGreaterThanOrEqual(4);
    const [first] = counts;
    counts.slice(0, 4).forEach(({ atMilliseconds }, second) => {
      expect(atMilliseconds - (first?.atMilliseconds ?? 0)).toBeCloseTo(second * 1000, 6);
    });
    const last = counts.at(-1);
    expect(last?.atMilliseconds).toBeGreaterThan(bench.clock.now());
  });

  it('are read on the screen at the count that is heard', () => {
    const { bench, beats } = exhaled();
    const cues = bench.cues();
    for (const { atSeconds, count } of beats.slice(0, 4)) {
      const said = bench.of('cue').find((cue) => cue.atSeconds === atSeconds);
      expect(said?.text).toBe(['one', 'two', 'three', 'four'][count - 1]);
    }
    expect(cues).toContain('one');
  });
});
