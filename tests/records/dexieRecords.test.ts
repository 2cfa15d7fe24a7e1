import { IDBDatabase, IDBFactory, IDBIndex, IDBKeyRange, IDBObjectStore } from 'fake-indexeddb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createDexieRecords } from '../../src/records/dexieRecords';
import { RecordError } from '../../src/records/problems';
import { stored } from './contract';
import { ended, finding, outcome, started } from './entries';

afterEach(() => void vi.restoreAllMocks());

const open = (indexedDB = new IDBFactory()) => ({
  indexedDB,
  records: createDexieRecords('sayso', { indexedDB, IDBKeyRange }),
});

/** The writes of the database fail in this way until the test ends. */
const writesFail = (name: string) =>
  vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(() => {
    throw new DOMException('no', name);
  });

describe("the browser's database", () => {
  it('has the session again after the page was loaded anew', async () => {
    const { indexedDB, records } = open();
    await stored(records, started('mon'));
    await stored(records, finding('mon', 1));
    const again = open(indexedDB).records;
    expect(await again.read('mon')).toEqual([started('mon'), finding('mon', 1)]);
    expect(await stored(again, finding('mon', 2))).toBeNull();
    expect((await again.read('mon')).at(-1)).toEqual(finding('mon', 2));
  });

  it('asks for strict durability whenever it writes', async () => {
    const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction');
    await stored(open().records, started('mon'));
    const calls = transaction.mock.calls as unknown[][];
    const writing = calls.filter(([, mode]) => mode === 'readwrite');
    expect(writing.length).toBeGreaterThan(0);
    for (const call of writing) expect(call[2]).toEqual({ durability: 'strict' });
  });

  it.each([
    ['QuotaExceededError', 'full', /free some space/],
    ['InvalidStateError', 'refused', /ordinary window/],
    ['UnknownError', 'damaged', /load it again/],
    ['SomethingElse', 'unknown', /leave this page open/],
  ])('answers %s as %s, and says what to do', async (name, reason, say) => {
    const { records } = open();
    writesFail(name);
    const problem = await stored(records, started('mon'));
    expect(problem?.reason).toBe(reason);
    expect(problem?.say).toMatch(say);
    vi.restoreAllMocks();
    expect(await records.read('mon')).toEqual([]);
    expect(await stored(records, started('mon'))).toBeNull();
  });

  it('answers a disk that is full only when the write is made final', async () => {
    const { records } = open();
    const add = IDBObjectStore.prototype.add;
    vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (
      this: IDBObjectStore,
      ...values
    ) {
      const request = add.apply(this, values);
      const { transaction } = this as unknown as { transaction: { _abort(name: string): void } };
      request.addEventListener('success', () => transaction._abort('QuotaExceededError'));
      return request;
    });
    expect((await stored(records, started('mon')))?.reason).toBe('full');
  });

  it('says so where the browser has no database', async () => {
    const records = createDexieRecords();
    expect((await stored(records, started('mon')))?.reason).toBe('refused');
    await expect(records.sessions()).rejects.toThrow(/ordinary window/);
  });

  it('works again after a first opening was refused', async () => {
    const indexedDB = new IDBFactory();
    const refused = vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('no', 'SecurityError');
    });
    const { records } = open(indexedDB);
    const reading = records.read('mon');
    await expect(reading).rejects.toBeInstanceOf(RecordError);
    await expect(reading).rejects.toMatchObject({ problem: { reason: 'refused' } });
    refused.mockRestore();
    expect(await stored(records, started('mon'))).toBeNull();
  });

  it('keeps the order of entries that are written without waiting', async () => {
    const { records } = open();
    const many = [started('mon'), ...Array.from({ length: 30 }, (_, at) => finding('mon', at + 1))];
    await Promise.all(many.map((entry) => stored(records, entry)));
    expect(await records.read('mon')).toEqual(many);
  });

  it('tells what 10,000 sessions left without reading anything else of them', async () => {
    const { records } = open();
    const sessions = Array.from({ length: 10_000 }, (_, at) => `s${String(at)}`);
    const startedAt = '2031-03-01T09:00:00+00:00';
    await records.addAll(
      sessions.flatMap((name, at) => [
        started(name, startedAt, `p${String(at % 40)}`),
        finding(name, 1),
        finding(name, 2),
        outcome(name, 3, 'hinge'),
        ended(name, 4),
      ]),
    );
    const rows: unknown[] = [];
    const getAll = IDBIndex.prototype.getAll;
    vi.spyOn(IDBIndex.prototype, 'getAll').mockImplementation(function (
      this: IDBIndex,
      ...values: unknown[]
    ) {
      const request = getAll.apply(this, values as []);
      request.addEventListener('success', () => rows.push(...(request.result as unknown[])));
      return request;
    });
    const others = [
      ...(['openCursor', 'get', 'getAll'] as const).map((how) =>
        vi.spyOn(IDBObjectStore.prototype, how),
      ),
      vi.spyOn(IDBIndex.prototype, 'openCursor'),
    ];
    expect(await records.outcomes()).toHaveLength(10_000);
    expect(rows).toHaveLength(30_000);
    expect(new Set(rows.map((row) => (row as { type: string }).type))).toEqual(
      new Set(['started', 'outcome', 'ended']),
    );
    for (const other of others) expect(other).not.toHaveBeenCalled();
  }, 60_000);
});
