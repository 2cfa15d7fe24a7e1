import { describe, expect, it } from 'vitest';
import { LIFTS } from '../../../src/domain/deciding/deciding';
import { findingHurts } from '../../../src/domain/deciding/hurting';
import { findingsOf } from '../../../src/domain/deciding/reading';
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

/** Areas with pain that bars load in them, read off the log alone. */
function barred(entries: readonly Entry[]): Set<string> {
  const areas = findingsOf(entries)
    .filter((finding) => findingHurts(DEFAULT_SETTINGS, finding))
    .map(({ check, drill }) => (book.checks[check ?? ''] ?? book.drills[drill ?? ''])?.area ?? '');
  return new Set(areas);
}

describe('the report of a random session', () => {
  it('holds together: homework, lifts, dates and reasons', () => {
    const seen = { homework: 0, forbidden: 0, loaded: 0, dates: 0 };
    for (let seed = 1; seed <= SESSIONS; seed += 1) {
      const { entries } = walked(seed).told;
      const report = reportOf(book, entries);
      const of = `seed ${seed}`;
      const isWarned = entries.some(({ type }) => type === 'red-flag');
      const working = report.areas.filter(({ outcome }) => outcome === 'working');
      const told = [...report.homework, ...report.noHomework].map(({ area }) => area);
      expect([...told].sort(), of).toEqual(isWarned ? [] : working.map(({ area }) => area).sort());
      const hurt = barred(entries);
      const referred = report.areas.filter(({ outcome }) => outcome === 'referred');
      const joined = referred.some(({ area }) => area !== 'overhead');
      for (const { area, drill, alternates, load } of report.homework) {
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
