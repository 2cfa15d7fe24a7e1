import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { describe, expect, it, vi } from 'vitest';
import { createDexieRecords } from '../../src/records/dexieRecords';
import { keepTrying } from '../../src/records/keepTrying';
import { makingRoom } from '../../src/records/makingRoom';
import { memoryRecords } from '../../src/records/memoryRecords';
import { problem, RecordError } from '../../src/records/problems';
import type { Entry } from '../../src/domain/log';
import { ended, finding, outcome, painKind, started } from './entries';
import { handClock } from './handClock';

/** The finding is put right, and had no sharp pain after all. */
const corrected: Entry = {
  ...finding('mon', 1),
  ...{ id: 'mon:later:6', type: 'corrected', entry: 'mon:rack:1', of: null },
  ...{ painKind: null, correctedAt: '2026-05-02T09:00:00+02:00', result: 'short', faults: [] },
};
// The finding itself tells of no pain, so that a list of people alone does not see it.
const session = [
  ...[started('mon'), finding('mon', 1), painKind('mon', 2, 'sharp')],
  ...[outcome('mon', 3, 'hinge', 'referred'), ended('mon', 4)],
];

describe.each([
  ['memory', memoryRecords],
  [
    "the browser's database",
    () => createDexieRecords('test', { indexedDB: new IDBFactory(), IDBKeyRange }),
  ],
  ['what is tried again', () => keepTrying(memoryRecords(), handClock())],
])('a correction in %s', (_, create) => {
  it('changes what the session left, and nothing of what stood there', async () => {
    const records = create();
    await records.addAll([...session, started('tue'), outcome('tue', 1, 'squat')]);
    const left = async () => (await records.outcomes()).find(({ head }) => head.session === 'mon');
    expect((await left())?.newPainAt).not.toEqual([]);
    await records.addAll([corrected, outcome('mon', 7, 'hinge', 'unfinished')]);
    expect(await left()).toMatchObject({ newPainAt: [], areas: [{ outcome: 'unfinished' }] });
    expect((await records.read('mon')).slice(0, session.length)).toEqual(session);
    expect(await records.outcomes()).toHaveLength(2);
  });
});

it('nothing is added behind entries of the session that are not written yet', async () => {
  const memory = memoryRecords();
  const full = { ...memory, append: vi.fn((_entry, done) => done(problem('full'))) };
  const records = keepTrying(full, handClock());
  records.append(started('mon'), vi.fn());
  await expect(records.addAll([corrected])).rejects.toMatchObject({ problem: { reason: 'full' } });
  expect(await memory.read('mon')).toEqual([]);
  await records.addAll([started('tue')]);
  expect(await memory.read('tue')).toHaveLength(1);
});

describe('what finds no room all at once', () => {
  const device = (reason: 'full' | 'refused') => {
    const memory = memoryRecords();
    let pieces = 2;
    const records = {
      ...memory,
      addAll: (entries: Entry[]) =>
        pieces > 0
          ? Promise.reject(new RecordError(null, problem(reason)))
          : memory.addAll(entries),
    };
    return { records, free: async () => (pieces -= 1) >= 0 };
  };

  it('is written once enough was made', async () => {
    const { records, free } = device('full');
    const roomy = makingRoom(records, free);
    await roomy.addAll([started('mon')]);
    expect(await roomy.read('mon')).toHaveLength(1);
  });

  it.each<['full' | 'refused', () => Promise<boolean>]>([
    ['full', async () => false],
    ['full', () => Promise.reject(new Error('no'))],
    ['refused', async () => true],
  ])('says that it is %s where none can be made', async (reason, free) => {
    const roomy = makingRoom(device(reason).records, free);
    await expect(roomy.addAll([started('mon')])).rejects.toMatchObject({ problem: { reason } });
  });
});
