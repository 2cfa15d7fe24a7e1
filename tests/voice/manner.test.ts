import { expect, it, vi } from 'vitest';
import type { VoiceChange } from '../../src/ports';
import { adjusted, mannerFrom, sharedManner, USUAL_MANNER } from '../../src/voice/manner';

const opposites: [VoiceChange, VoiceChange][] = [
  ['louder', 'quieter'],
  ['quieter', 'louder'],
  ['slower', 'faster'],
  ['faster', 'slower'],
];

it.each(opposites)(
  '%s can be said at least once, stops at a limit, and %s takes it back',
  (change, back) => {
    const once = adjusted(USUAL_MANNER, change);
    expect(once).not.toEqual(USUAL_MANNER);
    expect(adjusted(once, back)).toEqual(USUAL_MANNER);
    let most = once;
    for (let times = 0; times < 20; times += 1) most = adjusted(most, change);
    expect(adjusted(most, change)).toEqual(most);
    expect(adjusted(most, back)).not.toEqual(most);
    expect(most.volume).toBeGreaterThanOrEqual(0.1);
    expect(most.volume).toBeLessThanOrEqual(1);
  },
);

it('one manner holds for all who share it, and each change is told, to be kept', () => {
  const save = vi.fn();
  const load = () => ({ volume: 0.4, stretch: 1.13 });
  const manner = sharedManner({ load, save, keepOnly: () => undefined });
  expect(save).not.toHaveBeenCalled();
  manner.adjust('slower');
  expect(manner.now()).toEqual({ volume: 0.4, stretch: 1.27 });
  manner.adjust('louder');
  expect(save.mock.calls).toEqual([
    [null, { volume: 0.4, stretch: 1.27 }],
    [null, manner.now()],
  ]);
});

it('a manner that was kept is read back, and nothing else is', () => {
  const kept = adjusted(adjusted(USUAL_MANNER, 'slower'), 'quieter');
  expect(mannerFrom(kept)).toEqual(kept);
  for (const other of [null, 'loud', 1, {}, { volume: 9, stretch: 1 }, { volume: 1 }]) {
    expect(mannerFrom(other), JSON.stringify(other)).toBeNull();
  }
});
