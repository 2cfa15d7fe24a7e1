import { describe, expect, it } from 'vitest';
import { AREAS } from '../../src/domain/areas';
import type { Entry } from '../../src/domain/log';
import type { Row } from '../../src/records/checked';
import { RecordError } from '../../src/records/problems';
import { stored } from './contract';
import { behind, damageEntry, damageRow, device } from './device';
import { ended, finding, outcome, painKind, started } from './entries';

const session = [
  started('mon', undefined, 'p1'),
  { ...finding('mon', 1), result: 'held' as const },
  outcome('mon', 2, 'hinge'),
  ended('mon', 3),
];

async function withSession(more: Entry[] = []) {
  const here = device();
  await here.records.addAll([...session, ...more]);
  return here;
}

describe('a damaged entry', () => {
  it.each<[string, string, (row: Row) => void]>([
    [
      'a grade turned',
      'mon:rack:1',
      (row) => void (row.entry = { ...session[1]!, result: 'lost' } as Entry),
    ],
    [
      'a field gone',
      'mon:rack:1',
      (row) => void delete (row.entry as { faults?: string[] }).faults,
    ],
    ['its time moved', 'mon:rack:1', (row) => void ((row.entry as Entry).atSeconds += 0.001)],
    ['no entry at all', 'mon:rack:1', (row) => void (row.entry = null as unknown as Entry)],
    ['a text for an entry', 'mon:rack:1', (row) => void (row.entry = 'held' as unknown as Entry)],
    ['its checksum turned', 'mon:rack:1', (row) => void (row.checksum = '00000000')],
    ['its checksum gone', 'mon:rack:1', (row) => void delete (row as Partial<Row>).checksum],
    ['a shape that never was', 'mon:rack:1', (row) => void (row.schema = 0)],
    ['its mark for lists gone', 'mon:rack:2', (row) => void delete row.tells],
    ['the name of another entry', 'mon:rack:1', (row) => void (row.entry = finding('mon', 7))],
  ])('with %s is said, with its place, and its session is not graded', async (_, id, change) => {
    const here = await withSession();
    expect(await damageRow(here, id, change)).toBe(1);
    const number = Number(id.at(-1)) + 1;
    const reading = here.records.read('mon');
    await expect(reading).rejects.toBeInstanceOf(RecordError);
    await expect(reading).rejects.toThrow(
      new RegExp(
        `Entry ${String(number)} of this session was damaged.*nothing is graded.*bring in`,
      ),
    );
    expect(await here.keeping.upToDamage('mon')).toEqual({
      entries: session.slice(0, number - 1),
      damage: { session: 'mon', id, number, isNewer: false },
    });
    expect(await here.keeping.damage()).toEqual([
      { session: 'mon', id, number: null, isNewer: false },
    ]);
  });

  it('is not called stored when the entry is appended once more', async () => {
    const here = await withSession();
    await damageEntry(here, 'mon:rack:1', { result: 'lost' });
    expect(await stored(here.records, session[1]!)).toMatchObject({ reason: 'differs' });
  });

  it('leaves other sessions and what is written from now on as they are', async () => {
    const here = await withSession([started('tue'), finding('tue', 1)]);
    await damageEntry(here, 'mon:rack:1', { result: 'lost' });
    expect(await stored(here.records, finding('tue', 2))).toBeNull();
    expect(await here.records.read('tue')).toEqual([
      ...[started('tue'), finding('tue', 1), finding('tue', 2)],
    ]);
    expect(await here.keeping.upToDamage('tue')).toMatchObject({ damage: null });
    expect((await here.records.sessions()).map((head) => head.session).sort()).toEqual([
      'mon',
      'tue',
    ]);
  });

  it('stays in the record as it is, with all that came after it', async () => {
    const here = await withSession();
    await damageEntry(here, 'mon:rack:1', { result: 'lost' });
    await here.records.read('mon').catch(() => null);
    const rows = await behind(here.indexedDB, (db) => db.table<Row>('entries').toArray());
    expect(rows.map(({ id }) => id)).toEqual(session.map(({ id }) => id));
    expect(rows[1]?.entry).toMatchObject({ result: 'lost' });
  });

  it.each<[string, string, object]>([
    ['an outcome', 'mon:rack:2', { outcome: 'working' }],
    ['the pain', 'mon:rack:4', { kind: 'known' }],
    ['the end', 'mon:rack:3', { reason: 'stopped' }],
  ])(
    'that is %s makes no area of its session ready in the list of people',
    async (_, id, change) => {
      const here = await withSession([painKind('mon', 4, 'sharp')]);
      await damageEntry(here, id, change);
      const [left] = await here.records.outcomes();
      expect(left).toMatchObject({
        head: { session: 'mon', person: 'p1' },
        newPainAt: expect.arrayContaining(['']),
      });
      expect(left?.areas.map(({ area, outcome: is }) => [area, is])).toEqual(
        AREAS.map((area) => [area, 'unfinished']),
      );
    },
  );

  it('in a session that was corrected counts there too, though a list would not read it alone', async () => {
    const corrected = {
      ...{
        ...finding('mon', 1),
        type: 'corrected' as const,
        id: 'mon:desk:5',
        entry: 'mon:rack:1',
        of: null,
      },
      ...{ painKind: null, correctedAt: '2031-03-02T09:00:00+00:00' },
    };
    const here = await withSession([corrected]);
    expect((await here.records.outcomes())[0]?.areas).toEqual([
      { area: 'hinge', outcome: 'ready', rung: 2 },
    ]);
    await damageEntry(here, 'mon:rack:1', { result: 'lost' });
    expect((await here.records.outcomes())[0]?.areas).toHaveLength(AREAS.length);
  });

  it('that began its session is told, and no name or date of it is believed', async () => {
    const here = await withSession();
    await damageEntry(here, 'mon:rack:0', { person: 'p2', startedAt: '2020-01-01T00:00:00Z' });
    expect(await here.records.sessions()).toEqual([]);
    expect(await here.records.outcomes()).toEqual([]);
    expect(await here.keeping.upToDamage('mon')).toMatchObject({
      entries: [],
      damage: { number: 1 },
    });
    expect(await here.keeping.damage()).toHaveLength(1);
  });

  it('is not one that a window of an older version wrote without a checksum', async () => {
    const here = await withSession();
    await damageRow(here, 'mon:rack:1', (row) => {
      delete row.checksum;
      delete row.schema;
    });
    expect(await here.records.read('mon')).toEqual(session);
    expect(await here.keeping.damage()).toEqual([]);
  });

  it('is not one that a newer version wrote: the page is to be loaded again', async () => {
    const here = await withSession();
    await damageRow(here, 'mon:rack:1', (row) => void (row.schema = 2));
    await expect(here.records.read('mon')).rejects.toThrow(
      /^Entry 2 of this session was written by a newer version of this page\. Load the page again\.$/,
    );
    expect(await here.keeping.damage()).toMatchObject([{ id: 'mon:rack:1', isNewer: true }]);
  });
});
