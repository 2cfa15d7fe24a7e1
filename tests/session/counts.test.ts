import { describe, expect, it } from 'vitest';
import { secondsOf } from '../../src/cli/durations';
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

  it('stop with "stop", also the last, which rings on after its line', () => {
    const { bench } = exhaled();
    const phases = () => bench.of('phase');
    const before = phases().length;
    bench.clock.runUntil(() => phases().length > before, 60_000);
    expect(phases().at(-1)?.phase).not.toBe('exhaling');
    const last = bench.counts.at(-1);
    expect(last?.isCut).toBe(false);
    expect((last?.atMilliseconds ?? 0) + 1000 * secondsOf(last?.text ?? '')).toBeGreaterThan(
      bench.clock.now(),
    );
    bench.hand({ command: 'stop' });
    expect(last?.isCut).toBe(true);
  });

  it('ring out where the work just goes on', () => {
    const { bench } = exhaled();
    const counted = bench.counts.length;
    bench.clock.runUntil(() => bench.counts.length > counted + 8 || bench.isOver(), 600_000);
    expect(bench.counts.filter(({ isCut }) => isCut)).toEqual([]);
  });
});
