import { describe, expect, it } from 'vitest';
import { SHIPPED } from '../sounds/speakers';
import { nearFigure, ownTimeFigure } from './stop/ownTime';

describe('how soon "stop" over a line is told in its own time, measured', () => {
  it('is within half a second of its end, and one that nobody can hear is missed', async () => {
    const size = { lines: 1, places: 1 };
    const heard = await ownTimeFigure([SHIPPED], { aboveDecibels: 10, ...size });
    expect(heard).toMatchObject({ way: 'in its own time', n: 1, missed: 0 });
    expect(heard.medianMilliseconds).toBeLessThan(500);
    const drowned = await ownTimeFigure([SHIPPED], { aboveDecibels: -30, ...size });
    expect(drowned).toMatchObject({ missed: 1, missedOf: [SHIPPED.name] });
  });

  it('counts what halts that is no stop word, phrase by phrase', async () => {
    const near = await nearFigure([SHIPPED], ['stay tall', 'stop']);
    expect(near).toEqual({ figure: 'near to stop', n: 2, halted: { stop: 1 } });
  });
});
