import { describe, expect, it } from 'vitest';
import { LIFTS } from '../../../src/domain/deciding/deciding';
import { findingHurts } from '../../../src/domain/deciding/hurting';
import { findingsOf, type FindingTold } from '../../../src/domain/deciding/deciding';
import { DEFAULT_SETTINGS, type Entry } from '../../../src/domain/log';
import { reportOf } from '../../../src/domain/reporting/report';
import { Walk } from '../deciding/walking';
import { book } from './book';

const SESSIONS = 1500;
const walked = (seed: number): Walk => {
  const walk = new Walk(seed, book);
  for (let turn = 0; turn < 120 && walk.told.step.do !== 'end'; turn += 1) walk.tell();
  return walk;
};

/** Areas with a finding of that kind, read off the log alone. */
function areasWith(entries: readonly Entry[], is: (finding: FindingTold) => boolean): Set<string> {
  const areas = findingsOf(entries)
    .filter(is)
    .map(({ check, drill }) => (book.checks[check ?? ''] ?? book.drills[drill ?? ''])?.area ?? '');
  return new Set(areas);
}

describe('the report of a random session', () => {
  it('holds together: homework, lifts, dates and reasons', () => {
    const seen = { lifts: 0, waiting: 0, homework: 0, forbidden: 0, loaded: 0, dates: 0 };
    for (let seed = 1; seed <= SESSIONS; seed += 1) {
      const { entries } = walked(seed).told;
      const report = reportOf(book, entries);
      const of = `seed ${seed}`;
      const isWarned = entries.some(({ type }) => type === 'red-flag');
      const working = report.areas.filter(({ outcome }) => outcome === 'working');
      const told = [...report.homework, ...report.noHomework].map(({ area }) => area);
      expect([...told].sort(), of).toEqual(isWarned ? [] : working.map(({ area }) => area).sort());
      const hurt = areasWith(entries, (one) => findingHurts(DEFAULT_SETTINGS, one));
      const newly = areasWith(
        entries,
        ({ painKind }) => painKind === 'new' || painKind === 'sharp',
      );
      const referred = report.areas.filter(({ outcome }) => outcome === 'referred');
      const joined = referred.some(({ area }) => area !== 'overhead');
      for (const lift of report.liftsReady) {
        for (const area of LIFTS[lift]!) {
          expect(hurt.has(area) || (joined && area !== 'overhead'), `${of} ${lift}`).toBe(false);
        }
        seen.lifts += 1;
      }
      seen.waiting += working.filter(({ area }) => newly.has(area)).length;
      for (const { area, drill, alternates, load } of report.homework) {
        expect(newly.has(area), of).toBe(false);
        expect(load, of).not.toBe('heavier');
        for (const one of [drill, ...alternates]) {
          const { loaded } = book.drills[one]!;
          if (hurt.has(area) || (joined && area !== 'overhead')) expect(loaded, of).toBe(false);
          if (loaded) seen.loaded += 1;
        }
      }
      const lifts = [...report.liftsReady, ...report.liftsMissing.map(({ lift }) => lift)];
      expect([...lifts].sort(), of).toEqual(Object.keys(LIFTS).sort());
      expect(report.nextDate ?? '2031-03-02', of).toMatch(/^2031-03-\d\d$/);
      for (const { outcome, pattern, reasons, notTested } of report.areas) {
        // Rule 12.4: what failed came back, but something else was not tested.
        if (outcome === 'working' && notTested.length === 0) expect(pattern, of).not.toBeNull();
        if (outcome === 'ready') expect(pattern, of).toBeNull();
        if (outcome !== 'ready') expect(reasons.length, of).toBeGreaterThan(0);
      }
      for (const { stands, notTested } of report.checks) {
        expect(stands === 'not-tested', of).toBe(notTested !== null);
      }
      seen.homework += report.homework.length;
      seen.forbidden += report.noHomework.length;
      seen.dates += report.nextDate === null ? 0 : 1;
    }
    expect(Math.min(...Object.values(seen))).toBeGreaterThan(10);
  });

  it('is the same again after an undo, and for a log that was stored', () => {
    for (let seed = 1; seed <= 200; seed += 1) {
      const walk = walked(seed);
      if (walk.told.step.do === 'end') continue;
      const before = reportOf(book, walk.told.entries);
      walk.told.coach('lighter');
      walk.undo();
      expect(reportOf(book, JSON.parse(JSON.stringify(walk.told.entries)))).toEqual(before);
    }
  });
});
