import { describe, expect, it, vi } from 'vitest';
import type { Entry } from '../../../src/domain/log';
import { createRecordPlace } from '../../../src/main/record/recordPlace';
import { createSavedShelf, isSavingDue } from '../../../src/main/record/savedShelf';
import { askToLast, LASTING_SAYS } from '../../../src/main/record/lasting';
import type { Keeping } from '../../../src/records/dexieKeeping';
import { problem, RecordError } from '../../../src/records/problems';
import { someone } from '../../domain/people/someone';
import { damageEntry, device, type Device } from '../../records/device';
import { ended, finding, started } from '../../records/entries';
import { handClock } from '../../records/handClock';
import { fullDevice, kept } from './wholeRecords';

const PASSPHRASE = 'kettle under violet ladder';

/** A storage that lasts as long as the test. */
function memoryStorage(): Storage {
  const all = new Map<string, string>();
  return {
    getItem: (key: string) => all.get(key) ?? null,
    setItem: (key: string, text: string) => void all.set(key, text),
  } as unknown as Storage;
}

function placeOn(here: { keeping: Pick<Keeping, 'whole' | 'bringIn'> }, held: Entry[] = []) {
  const storage = memoryStorage();
  const shelf = createSavedShelf(() => storage);
  const files: { name: string; text: string }[] = [];
  const place = createRecordPlace({
    ...{ keeping: here.keeping, held: () => held, clock: handClock(), shelf },
    handOver: (name, text) => void files.push({ name, text }),
  });
  return { place, files, shelf };
}
const saved = async (here: Device, passphrase: string | null = null) => {
  const { place, files } = placeOn(here);
  expect(await place.save(passphrase)).toMatchObject({ damaged: 0 });
  return new Blob([files[0]!.text]);
};
const broken = (
  reason: 'full' | 'refused' | 'damaged' | 'unknown',
): Pick<Keeping, 'whole' | 'bringIn'> => ({
  whole: () => Promise.reject(new RecordError(null, problem(reason))),
  bringIn: (_, isTrial) =>
    isTrial === true
      ? Promise.resolve({} as never)
      : Promise.reject(new RecordError(null, problem(reason))),
});

describe('"Save the whole record"', () => {
  it('hands over one file with the day in its name, and keeps when that was', async () => {
    const { place, files, shelf } = placeOn(await fullDevice());
    expect(shelf.load()).toBeNull();
    const became = await place.save(null);
    expect(became).toEqual({ file: files[0]?.name, damaged: 0 });
    expect(files[0]?.name).toMatch(/^sayso-record-\d{4}-\d\d-\d\d\.json$/);
    expect(files[0]?.text).toContain('Quib Marn');
    expect(Date.parse(shelf.load() ?? '')).toBe(0);
  });

  it('locks it under a passphrase, and wants one that is long enough', async () => {
    const { place, files } = placeOn(await fullDevice());
    expect(await place.save('short')).toEqual({
      say: expect.stringMatching(/at least 12 letters/),
    });
    expect(files).toEqual([]);
    await place.save(PASSPHRASE);
    expect(files[0]?.name).toMatch(/^sayso-record-locked-/);
    expect(files[0]?.text).not.toContain('Quib');
  });

  it('tells how many entries in it are damaged', async () => {
    const here = await fullDevice();
    await damageEntry(here, 'mon:rack:1', { result: 'held' });
    expect(await placeOn(here).place.save(null)).toMatchObject({ damaged: 1 });
  });

  it('has what the page holds but could not store', async () => {
    const { place, files } = placeOn(await fullDevice(), [finding('tue', 2), started('wed')]);
    expect(await place.save(null)).toMatchObject({ damaged: 0 });
    expect(files[0]?.text).toContain('tue:rack:2');
    expect(files[0]?.text).toContain('wed:rack:0');
  });

  it('has what the page holds where the device keeps nothing, as in a private window', async () => {
    const { place, files } = placeOn({ keeping: broken('refused') }, [
      started('mon'),
      finding('mon', 1),
      ended('mon', 2),
    ]);
    expect(await place.save(null)).toHaveProperty('file');
    const empty = device();
    const { place: other } = placeOn(empty);
    expect(await other.look(new Blob([files[0]!.text]), null)).toMatchObject({
      would: { entriesAdded: 3 },
    });
  });

  it('leaves out a session with somebody invented that the page holds', async () => {
    const { place, files } = placeOn(await fullDevice(), [started('invented-x'), started('wed')]);
    expect(await place.save(null)).toMatchObject({ damaged: 0 });
    expect(files[0]?.text).toContain('wed:rack:0');
    expect(files[0]?.text).not.toContain('invented-x');
  });

  it('says why where the record cannot be read, and hands over nothing', async () => {
    const { place, files, shelf } = placeOn({ keeping: broken('refused') });
    expect(await place.save(null)).toEqual({ say: problem('refused').say });
    expect(files).toEqual([]);
    expect(shelf.load()).toBeNull();
  });

  it('gives out no file that could not be brought in again, and says so', async () => {
    const here = await fullDevice();
    await here.people.save([someone('p3', { name: 'Quib \u202eMarn' })]);
    const { place, files } = placeOn(here);
    expect(await place.save(null)).toEqual({
      say: expect.stringMatching(/could not be saved.*people\[1\]\.name/),
    });
    expect(files).toEqual([]);
  });
});

describe('"Bring a record in"', () => {
  it('tells what it would change, changes it when asked, and says what it did', async () => {
    const [file, empty] = [await saved(await fullDevice()), device()];
    const { place } = placeOn(empty);
    const counts = { peopleAdded: 1, sessionsAdded: 2, entriesAdded: 6, notesAdded: 1 };
    expect(await place.look(file, null)).toMatchObject({ would: counts });
    expect(await empty.people.all()).toEqual([]);
    expect(await place.bringIn()).toMatchObject({ did: counts });
    expect(await kept(empty)).toBe(await kept(await fullDevice()));
    expect(await place.bringIn()).toEqual({ say: expect.stringMatching(/Choose one first/) });
  });

  it('asks for the passphrase of a locked file, and says where it is the wrong one', async () => {
    const [file, empty] = [await saved(await fullDevice(), PASSPHRASE), device()];
    const { place } = placeOn(empty);
    expect(await place.look(file, null)).toEqual({ isLocked: true });
    expect(await place.look(file, 'kettle under violet')).toEqual({
      say: expect.stringMatching(/does not open the file/),
    });
    expect(await place.bringIn()).toEqual({ say: expect.stringMatching(/Choose one first/) });
    expect(await place.look(file, PASSPHRASE)).toMatchObject({ would: { sessionsAdded: 2 } });
    expect(await place.bringIn()).toMatchObject({ did: { sessionsAdded: 2 } });
  });

  it('says with place and reason what it does not take, and forgets a file that was taken before', async () => {
    const [file, empty] = [await saved(await fullDevice()), device()];
    const { place } = placeOn(empty);
    await place.look(file, null);
    const bad = new Blob([(await file.text()).replace('Quib', 'Quim')]);
    expect(await place.look(bad, null)).toEqual({
      say: expect.stringMatching(/^At checksum: .*Nothing was brought in/),
    });
    expect(await place.bringIn()).toEqual({ say: expect.stringMatching(/Choose one first/) });
    expect(await empty.people.all()).toEqual([]);
  });

  it('says so where the file cannot be read, or is too large to be', async () => {
    const { place } = placeOn(device());
    const gone = {
      size: 3,
      arrayBuffer: () => Promise.reject(new Error('gone')),
    } as unknown as Blob;
    expect(await place.look(gone, null)).toEqual({
      say: expect.stringMatching(/could not be opened/),
    });
    const read = vi.fn();
    const huge = { size: 3e9, arrayBuffer: read } as unknown as Blob;
    expect(await place.look(huge, null)).toEqual({ say: expect.stringMatching(/at most 256 MB/) });
    expect(read).not.toHaveBeenCalled();
  });

  it.each([
    ['full', /no room for it, so nothing was brought in/],
    ['refused', /private window, so nothing was brought in/],
    ['damaged', /Close other windows/],
    ['unknown', /Nothing was brought in/],
  ] as const)('says what to do where the device is %s', async (reason, say) => {
    const { place } = placeOn({ keeping: broken(reason) });
    await place.look(await saved(await fullDevice()), null);
    expect(await place.bringIn()).toEqual({ say: expect.stringMatching(say) });
  });
});

describe('the coach is asked to save the record', () => {
  const day = (number: number) => Date.parse('2031-03-01T12:00:00Z') + number * 86_400_000;
  const at = (number: number) => new Date(day(number)).toISOString();

  it.each([
    ['never where there is no session', null, [], 99, false],
    ['not in the first week', null, [at(0), at(5)], 6, false],
    ['after the first week', null, [at(5), at(0)], 7, true],
    ['not where nothing came since', at(8), [at(0), at(7)], 99, false],
    ['not within a week of the last time', at(8), [at(9)], 14, false],
    ['a week after the last time', at(8), [at(9)], 15, true],
    ['no sooner on a clock that was set back', at(8), [at(9)], -20, false],
  ])('%s', (_, savedAt, startedAts, today, isDue) => {
    expect(isSavingDue(savedAt, startedAts, day(today))).toBe(isDue);
  });

  it('again where it is not known when that was', () => {
    const storage = memoryStorage();
    storage.setItem('sayso-record-saved', 'once upon a time');
    expect(createSavedShelf(() => storage).load()).toBeNull();
    const refused = createSavedShelf(() => {
      throw new DOMException('no', 'SecurityError');
    });
    refused.save(at(1));
    expect(refused.load()).toBeNull();
  });
});

describe('the browser is asked to keep the record', () => {
  const manager = (isKept: boolean, answer: boolean | Error) => ({
    persisted: () => Promise.resolve(isKept),
    persist: vi.fn(() =>
      answer instanceof Error ? Promise.reject(answer) : Promise.resolve(answer),
    ),
  });

  it('once on this device, and its answer is told each time', async () => {
    const storage = memoryStorage();
    const no = manager(false, false);
    expect(await askToLast(no, () => storage)).toBe('may-go');
    expect(await askToLast(no, () => storage)).toBe('may-go');
    expect(no.persist).toHaveBeenCalledTimes(1);
    expect(await askToLast(manager(true, false), () => storage)).toBe('kept');
  });

  it.each([
    ['promises', manager(false, true), 'kept'],
    ['does not', manager(false, false), 'may-go'],
    ['has promised before', manager(true, false), 'kept'],
    ['fails', manager(false, new Error('no')), 'unknown'],
    ['does not know the question', undefined, 'unknown'],
  ] as const)('and where it %s, that is said', async (_, asked, lasting) => {
    const answer = await askToLast(asked, memoryStorage);
    expect(answer).toBe(lasting);
    expect(LASTING_SAYS[answer]).toMatch(/\.$/);
  });
});
