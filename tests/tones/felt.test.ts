import { describe, expect, it, vi } from 'vitest';
import { TONES, type Tones } from '../../src/ports';
import { alsoFelt, VIBRATIONS } from '../../src/tones/vibrating';

const tones = () => ({ play: vi.fn<Tones['play']>(), hush: vi.fn<Tones['hush']>() });

describe('tones that are felt', () => {
  it('each feels unlike every other: other pulses, or one three times as long', () => {
    const shapes = TONES.map((name) =>
      VIBRATIONS[name]
        .filter((_, at) => at % 2 === 0)
        .map((pulse) => Math.round(Math.log(pulse / 30) / Math.log(2))),
    );
    expect(new Set(shapes.map((shape) => shape.join(' '))).size).toBe(TONES.length);
  });

  it('tremble with the sound, and stop with it', () => {
    const vibrate = vi.fn();
    const heard = tones();
    const felt = alsoFelt(heard, vibrate);
    felt.play('halted');
    felt.hush();
    expect(heard.play).toHaveBeenCalledWith('halted');
    expect(heard.hush).toHaveBeenCalledTimes(1);
    expect(vibrate.mock.calls).toEqual([[[600]], [[]]]);
  });

  it('are only heard where the device cannot tremble', () => {
    const heard = tones();
    alsoFelt(heard, undefined).play('accepted');
    expect(heard.play).toHaveBeenCalledWith('accepted');
  });
});
