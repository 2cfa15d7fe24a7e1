import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/domain/log';
import type { RecordProblem, Records } from '../../src/ports';
import { ended, finding, outcome, painKind, started } from './entries';

/** Appends and waits for the answer. */
export const stored = (records: Records, entry: Entry): Promise<RecordProblem | null> =>
  new Promise((resolve) => records.append(entry, resolve));

/** What every keeper of records must do; `create` gives an empty one. */
export const recordsContract = (name: string, create: () => Records): void => {
  describe(`${name} keeps the record`, () => {
    it('gives back a session in the order it was written, whatever its times say', async () => {
      const records = create();
      const session = [started('mon'), finding('mon', 2), finding('mon', 1), ended('mon', 3)];
      const answers = await Promise.all(session.map((entry) => stored(records, entry)));
      expect(answers).toEqual([null, null, null, null]);
      expect(await records.read('mon')).toEqual(session);
    });

    it('takes an entry that is already there as stored, and keeps it once', async () => {
      const records = create();
      await stored(records, started('mon'));
      await stored(records, finding('mon', 1));
      const { id, ...rest } = finding('mon', 1);
      expect(await stored(records, { ...rest, id })).toBeNull();
      expect(await records.read('mon')).toEqual([started('mon'), finding('mon', 1)]);
    });

    it('refuses other content under the id of an entry, and keeps what is there unchanged', async () => {
      const records = create();
      await stored(records, started('mon'));
      await stored(records, finding('mon', 1));
      const other: Entry = { ...finding('mon', 1), result: 'held' };
      expect(await stored(records, other)).toMatchObject({ reason: 'differs' });
      const several = records.addAll([finding('mon', 2), other]);
      await expect(several).rejects.toMatchObject({ problem: { reason: 'differs' } });
      const twice = records.addAll([finding('mon', 2), { ...finding('mon', 2), result: 'held' }]);
      await expect(twice).rejects.toMatchObject({ problem: { reason: 'differs' } });
      expect(await records.read('mon')).toEqual([started('mon'), finding('mon', 1)]);
    });

    it('keeps sessions apart and lists them newest first, across time zones', async () => {
      const records = create();
      await stored(records, started('early', '2026-05-01T09:00:00+02:00'));
      await stored(records, started('late:colon', '2026-05-01T08:30:00+00:00'));
      await stored(records, finding('early', 1));
      await stored(records, ended('early', 2));
      expect(await records.read('late:colon')).toHaveLength(1);
      expect(await records.sessions()).toEqual([
        {
          session: 'late:colon',
          routine: 'hinge',
          startedAt: '2026-05-01T08:30:00+00:00',
          ended: null,
          person: null,
        },
        {
          session: 'early',
          routine: 'hinge',
          startedAt: '2026-05-01T09:00:00+02:00',
          ended: 'completed',
          person: null,
        },
      ]);
    });

    it('knows nothing of an unknown session', async () => {
      const records = create();
      expect(await records.read('never')).toEqual([]);
      expect(await records.sessions()).toEqual([]);
    });

    it('tells what each session left, newest first, with whose it was', async () => {
      const records = create();
      const early = [
        started('early', '2026-05-01T09:00:00+02:00', 'p1'),
        { ...finding('early', 1), result: 'pain' as const, pain: 4 },
        painKind('early', 2, 'sharp'),
        outcome('early', 3, 'hinge', 'unfinished'),
        outcome('early', 4, 'hinge', 'working'),
        ended('early', 5),
      ];
      await records.addAll([...early, started('late', '2026-05-02T09:00:00+02:00')]);
      await stored(records, finding('late', 1));
      await stored(records, outcome('late', 2, 'squat'));
      expect(await records.outcomes()).toEqual([
        {
          head: {
            session: 'late',
            routine: 'hinge',
            startedAt: '2026-05-02T09:00:00+02:00',
            ended: null,
            person: null,
          },
          areas: [{ area: 'squat', outcome: 'ready', rung: 2 }],
          newPainAt: [],
          isWarned: false,
        },
        {
          head: {
            session: 'early',
            routine: 'hinge',
            startedAt: '2026-05-01T09:00:00+02:00',
            ended: 'completed',
            person: 'p1',
          },
          areas: [{ area: 'hinge', outcome: 'working', rung: 2 }],
          newPainAt: ['hinge-unloaded'],
          isWarned: false,
        },
      ]);
    });

    it('adds many at once in their order, and leaves what is there as it is', async () => {
      const records = create();
      await stored(records, started('mon'));
      await stored(records, finding('mon', 1));
      await records.addAll([finding('mon', 1), finding('mon', 2)]);
      await records.addAll([started('tue'), finding('tue', 1)]);
      expect(await records.read('mon')).toEqual([
        started('mon'),
        finding('mon', 1),
        finding('mon', 2),
      ]);
      expect(await records.read('tue')).toEqual([started('tue'), finding('tue', 1)]);
    });

    it('removes the sessions of the invented club and nothing else', async () => {
      const records = create();
      const names = [
        'invented-1',
        'mon',
        'invented-2',
        'not-invented-',
        'inventedness',
        'Invented-3',
      ];
      for (const name of names) await stored(records, started(name));
      await records.addAll([
        finding('invented-1', 1),
        finding('mon', 1),
        outcome('mon', 2, 'squat'),
      ]);
      await records.removeInvented();
      const left = (await records.sessions()).map(({ session }) => session).sort();
      expect(left).toEqual(['Invented-3', 'inventedness', 'mon', 'not-invented-']);
      expect(await records.outcomes()).toHaveLength(4);
      expect(await records.read('invented-1')).toEqual([]);
      expect(await records.read('mon')).toHaveLength(3);
    });
  });
};
