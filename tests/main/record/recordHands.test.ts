// @vitest-environment jsdom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createVirtualClock } from '../../../src/cli/virtualClock';
import type { WholeRecord } from '../../../src/domain/keeping/wholeRecord';
import { writeRecord } from '../../../src/main/record/writing';
import { createRecordHands } from '../../../src/main/record/recordHands';
import type { SessionHead } from '../../../src/ports';
import { memoryRecords } from '../../../src/records/memoryRecords';
import { createSeatStore } from '../../../src/screens/seat';
import { STATE } from '../../screens/fakeSeat';

const NOW = Date.UTC(2031, 2, 20, 9, 0, 0);
const EMPTY: WholeRecord = { people: [], sessions: [], notes: [], erased: [] };
const CAME = {
  ...{ peopleAdded: 1, peopleChanged: 0, sessionsAdded: 0, entriesAdded: 0, notesAdded: 0 },
  ...{ entriesMended: 0, stayErased: 0, peopleErased: 0 },
};
const begun = (startedAt: string) => ({ session: startedAt, startedAt }) as SessionHead;

afterEach(() => void vi.restoreAllMocks());

let given: string[];
beforeEach(() => {
  localStorage.clear();
  given = [];
  // jsdom has neither an address for a file nor a link that leads to one.
  vi.stubGlobal(
    'URL',
    Object.assign(URL, { createObjectURL: () => 'blob:x', revokeObjectURL: () => undefined }),
  );
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function click(
    this: HTMLAnchorElement,
  ) {
    given.push(this.download);
  });
});

function seat(heads: SessionHead[], persist = vi.fn(() => Promise.resolve(false))) {
  const store = createSeatStore({ ...STATE, where: 'people' });
  const changed = vi.fn();
  const record = createRecordHands({
    parts: {
      clock: createVirtualClock(NOW),
      keeping: {
        whole: () => Promise.resolve(EMPTY),
        bringIn: () => Promise.resolve(CAME),
        upToDamage: () => Promise.reject(new Error('not asked for')),
        damage: () =>
          Promise.resolve([{ session: 'ago', id: 'ago:phone:7', number: 7, isNewer: false }]),
      },
      records: { ...memoryRecords(), sessions: () => Promise.resolve(heads) },
    },
    ...{ store, changed, storage: () => localStorage },
    manager: { persist, persisted: () => Promise.resolve(false) },
  });
  return { record, store, changed, persist, state: () => store.state().record };
}

describe('the record as a whole, at the seat', () => {
  it('is asked to be saved a week after a session that is on this device alone, and no more once it was', async () => {
    const { record, state } = seat([begun('2031-03-08T09:00:00.000Z')]);
    await record.lookDue();
    expect(state().isSavingDue).toBe(true);
    expect(await record.save(null)).toEqual({ file: 'sayso-record-2031-03-20.json', damaged: 0 });
    expect(given).toEqual(['sayso-record-2031-03-20.json']);
    expect(state().isSavingDue).toBe(false);
  });

  it('is not asked for because of the invented club, which is in no file', async () => {
    const { record, state } = seat([
      { ...begun('2031-01-08T09:00:00.000Z'), session: 'invented-1' } as SessionHead,
    ]);
    await record.lookDue();
    expect(state().isSavingDue).toBe(false);
  });

  it('is not asked for where every session is of this week', async () => {
    const { record, state } = seat([begun('2031-03-18T09:00:00.000Z')]);
    await record.lookDue();
    expect(state().isSavingDue).toBe(false);
  });

  it('tells of a session whose beginning is damaged, which no list has', async () => {
    const { record, state } = seat([]);
    record.show();
    await vi.waitFor(() => expect(state().damage).not.toBeNull());
    expect(state().damage).toEqual([
      expect.stringMatching(/^Session ago, entry .* is in no list; the rest of it is kept/),
    ]);
  });

  it('the browser is asked once to keep it, and what it answers is shown', async () => {
    const { record, state, store, persist } = seat([
      { ...begun('2031-03-18T09:00:00.000Z'), session: 'ago' },
    ]);
    record.show();
    await vi.waitUntil(() => state().lasting !== null && state().damage !== null);
    expect(state().lasting).toMatch(/may drop the record/);
    expect(state().damage).toEqual(['Session ago, entry ago:phone:7.']);
    record.leave();
    store.patch({ record: { isSavingDue: false, lasting: null, damage: null } });
    record.show();
    await vi.waitUntil(() => state().lasting !== null);
    expect(persist).toHaveBeenCalledTimes(1);
  });

  it('too short a passphrase is refused with what to do, and no file is made', async () => {
    const { record } = seat([]);
    expect(await record.save('short')).toMatchObject({
      say: expect.stringMatching(/at least/) as string,
    });
    expect(given).toEqual([]);
  });

  it('a file is looked at, brought in, and everything is read anew', async () => {
    const { record, changed } = seat([]);
    expect(await record.bringIn()).toMatchObject({
      say: expect.stringMatching(/Choose one/) as string,
    });
    expect(await record.look(new Blob(['{}']), null)).toMatchObject({
      say: expect.stringMatching(/no record that Sayso saved/) as string,
    });
    expect(changed).not.toHaveBeenCalled();
    const { text } = await writeRecord(EMPTY, '2031-03-20T09:00:00.000Z');
    expect(await record.look(new Blob([text]), null)).toEqual({ would: CAME });
    expect(changed).not.toHaveBeenCalled();
    expect(await record.bringIn()).toEqual({ did: CAME });
    expect(changed).toHaveBeenCalledTimes(1);
  });
});
