import { describe, expect, it } from 'vitest';
import { evennessOf } from './pacing/evenness';

const everySecond = (count: number, off: (beat: number) => number = () => 0) =>
  Array.from({ length: count }, (_, beat) => 3.2 + beat + off(beat));

describe('how even beats are', () => {
  it('even ones are off by nothing, wherever they begin', () => {
    expect(evennessOf(everySecond(60), 60)).toEqual({
      beats: 60,
      lost: 0,
      worstMilliseconds: 0,
      driftPercent: 0,
    });
  });

  it('one late beat is the worst, and neither moves the others nor drifts', () => {
    const { worstMilliseconds, driftPercent } = evennessOf(
      everySecond(60, (beat) => (beat === 20 ? 0.031 : 0)),
      60,
    );
    expect(worstMilliseconds).toBe(31);
    expect(driftPercent).toBe(0);
  });

  it('beats that come later and later drift', () => {
    // 129 ms in a minute, as an interval in a browser was seen to.
    const { driftPercent } = evennessOf(
      everySecond(60, (beat) => (0.129 * beat) / 60),
      60,
    );
    expect(driftPercent).toBeCloseTo(0.215, 3);
  });

  it('beats that never came are lost, and those after them still in time', () => {
    const heard = everySecond(24).filter((_, beat) => beat < 2 || beat === 23);
    const { lost, worstMilliseconds } = evennessOf(heard, 24);
    expect(lost).toBe(21);
    expect(worstMilliseconds).toBe(0);
  });

  it('too few beats are no measurement', () => {
    expect(() => evennessOf([1, 2], 60)).toThrow('2 beats were heard of 60');
  });
});
