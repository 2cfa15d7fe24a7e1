import { describe, expect, it } from 'vitest';
import { SHIPPED } from '../../sounds/speakers';
import { figureFrom, stopFigures } from '../../bench/stop/stopping';
import { DIST } from '../opening';

describe('how soon Sayso is silent after "stop" over its own voice, measured', () => {
  it('in real Chromium: by voice within the line, by touch at once', async () => {
    const size = { times: 3, speakers: [SHIPPED], leakDecibels: -12, aboveDecibels: 15 };
    const [voice, touch] = await stopFigures({ ...size, ways: ['voice', 'touch'], folder: DIST });
    expect(touch).toMatchObject({ way: 'touch', n: 3, missed: 0 });
    expect(touch?.percentile95Milliseconds).toBeLessThan(200);
    // How soon is the bench's: a busy machine takes its time. An ear that is cut off hears none.
    expect(voice).toMatchObject({ way: 'voice', n: 3 });
    expect(voice?.missed).toBeLessThan(2);
  });

  it('what was not silenced is missed, and stands in no percentile', () => {
    const took = [300, 100, null, 200].map((milliseconds) => ({ name: 'rms', milliseconds }));
    expect(figureFrom('voice', took)).toEqual({
      figure: 'stop',
      way: 'voice',
      n: 4,
      missed: 1,
      medianMilliseconds: 200,
      percentile95Milliseconds: 300,
      missedOf: ['rms'],
    });
  });
});
