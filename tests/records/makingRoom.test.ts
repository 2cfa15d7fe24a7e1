import { expect, it } from 'vitest';
import type { RecordProblem } from '../../src/ports';
import { makingRoom } from '../../src/records/makingRoom';
import { memoryRecords } from '../../src/records/memoryRecords';
import { problem } from '../../src/records/problems';
import { started } from './entries';

/** A device that has room for entries once `room` is true. */
const full = (why: RecordProblem['reason'] = 'full') => {
  const device = { room: false };
  const inner = memoryRecords();
  const records: typeof inner = {
    ...inner,
    append: (entry, done) => (device.room ? inner.append(entry, done) : done(problem(why))),
  };
  return { device, records };
};
const append = (records: ReturnType<typeof memoryRecords>) =>
  new Promise<RecordProblem | null>((done) => records.append(started('s1'), done));

it('an entry that finds no room is written once enough was made, and nothing is said', async () => {
  const { device, records } = full();
  let pieces = 3;
  const roomy = makingRoom(records, async () => {
    pieces -= 1;
    device.room = pieces === 0;
    return true;
  });
  expect(await append(roomy)).toBeNull();
  expect(await roomy.read('s1')).toEqual([started('s1')]);
});

it.each([
  ['nothing can be taken away', async () => false],
  ['what is kept cannot be reached', () => Promise.reject(new Error('refused'))],
])('it is said where %s', async (_, makeRoom) => {
  expect(await append(makingRoom(full().records, makeRoom))).toMatchObject({ reason: 'full' });
});

it('nothing is taken away for another trouble', async () => {
  let taken = 0;
  const roomy = makingRoom(full('refused').records, async () => {
    taken += 1;
    return true;
  });
  expect(await append(roomy)).toMatchObject({ reason: 'refused' });
  expect(taken).toBe(0);
});
