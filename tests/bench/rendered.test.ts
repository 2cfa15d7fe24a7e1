import { expect, test } from 'vitest';
import { renderedDrills } from './rendered/drills';
import { lookAt } from './rendered/looking';
import { wordsWrong } from './rendered/wording';

test('a drill as it would be heard: nothing overlaps, clicks or clips, lines are equally loud, counts on their moments', async () => {
  const [drill] = await renderedDrills(1);
  if (drill === undefined) throw new Error('No drill was rendered.');
  const seen = lookAt(drill);
  expect(seen).toMatchObject({ overlaps: [], clicks: 0, clipped: 0 });
  expect(seen.loudnessRangeDecibels).toBeLessThan(6);
  expect(seen.counts).toBeGreaterThanOrEqual(3);
  // Two ways to find a vowel agree to 20 ms; less than 50 is heard as together (practice).
  expect(seen.worstCountMilliseconds).toBeLessThan(25);

  const broken = { ...drill, samples: drill.samples.slice() };
  broken.samples.fill(0.9, 4000, 4001);
  broken.samples.fill(1, 8000, 8010);
  const [first] = drill.said;
  if (first === undefined) throw new Error('Nothing was said.');
  broken.said = [...drill.said, { ...first, fromSeconds: first.fromSeconds + 0.2 }];
  const found = lookAt(broken);
  expect(found.clicks + found.clipped).toBeGreaterThan(8);
  expect(found.overlaps).toHaveLength(1);
});

test('words that a recogniser writes are compared as words', () => {
  expect(wordsWrong('Six slow ones.', '6 slow ones')).toEqual({ wrong: 0, of: 3 });
  expect(wordsWrong('How was the set?', 'cow is the set')).toEqual({ wrong: 2, of: 4 });
  expect(wordsWrong('Put the bell down.', '')).toEqual({ wrong: 4, of: 4 });
});
