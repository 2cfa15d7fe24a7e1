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

  it('a beat that is late by more than half a second is late by all of it', () => {
    const late = everySecond(60, (beat) => (beat === 20 ? 0.7 : 0));
    expect(evennessOf(late, 60)).toMatchObject({ lost: 0, worstMilliseconds: 700 });
    const oneLost = late.filter((_, beat) => beat !== 40);
    expect(evennessOf(oneLost, 60)).toMatchObject({ lost: 1, worstMilliseconds: 700 });
  });

  it('beats that drift by more than a second in all are still told apart', () => {
    const { driftPercent, lost } = evennessOf(
      everySecond(600, (beat) => 0.0025 * beat),
      600,
    );
    expect([driftPercent, lost]).toEqual([0.25, 0]);
    const some = everySecond(600, (beat) => 0.0025 * beat).filter((_, beat) => beat % 7 !== 3);
    expect(evennessOf(some, 600).driftPercent).toBeCloseTo(0.25, 3);
  });

  it('too few beats are no measurement', () => {
    expect(() => evennessOf([1, 2], 60)).toThrow('2 beats were heard of 60');
  });
});
