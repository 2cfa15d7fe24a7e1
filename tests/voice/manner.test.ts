import { expect, it } from 'vitest';
import type { VoiceChange } from '../../src/ports';
import { adjusted, USUAL_MANNER } from '../../src/voice/manner';

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
