import { describe, expect, test } from 'vitest';
import { lazyRecords } from '../../src/records/lazyRecords';
import { memoryRecords } from '../../src/records/memoryRecords';
import { stored } from './contract';
import { started } from './entries';

describe('records that are loaded when they are asked for', () => {
  test('are loaded once, and not before', async () => {
    let loads = 0;
    const records = lazyRecords(() => {
      loads += 1;
      return Promise.resolve(memoryRecords());
    });
    expect(loads).toBe(0);
    await Promise.all([records.sessions(), records.sessions()]);
    expect(loads).toBe(1);
  });

  test('say that an entry was not stored where they did not load, and load the next time', async () => {
    const answers = [() => Promise.reject(new Error('offline'))];
    const records = lazyRecords(() => (answers.shift() ?? (async () => memoryRecords()))());
    expect(await stored(records, started('s1'))).toMatchObject({ reason: 'unknown' });
    expect(await stored(records, started('s1'))).toBeNull();
  });
});
