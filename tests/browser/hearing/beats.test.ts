import { expect, test } from 'vitest';
import { pacingFigures } from '../../bench/pacing/pacing';

/** A short run of the bench of beats: in time in a page that is seen, and in one that is not. */
test('beats in real Chromium come in time from the sound itself, hidden too, and none is lost', async () => {
  const ours = (await pacingFigures(6)).filter(({ way }) => way === 'ours');
  expect(ours.map(({ page, beats, lost }) => ({ page, beats, lost }))).toEqual([
    { page: 'seen', beats: 6, lost: 0 },
    { page: 'hidden', beats: 6, lost: 0 },
  ]);
  // The bench's goal is 10 ms; a machine that runs other tests besides gets some more.
  for (const { worstMilliseconds } of ours) expect(worstMilliseconds).toBeLessThan(100);
});
