import { describe, expect, it } from 'vitest';
import type { AreaOutcome } from '../../../src/domain/areas';
import {
  counting,
  saidFindings,
  type Said,
  type SaidFinding,
} from '../../../src/domain/deciding/corrected';
import { correctionFacts } from '../../../src/domain/deciding/correction';
import { slotsOf } from '../../../src/domain/deciding/checking';
import { areaStates, findingsOf, nextStep } from '../../../src/domain/deciding/deciding';
import { recountWith } from '../../../src/domain/deciding/recounting';
import { courseOf } from '../../../src/domain/deciding/walking';
import { RESULTS } from '../../../src/domain/findings';
import { leftBy } from '../../../src/domain/people/left';
import { outcomeOf } from '../../../src/domain/reporting/report';
import { book } from '../reporting/book';
import type { Telling } from './logging';
import { Walk } from './walking';

const SESSIONS = 200;
const MOST_STEPS = 120;
const AT = '2031-03-02T10:00:00+00:00';

/** A session as it happens, to its end or broken off, and closed. */
function walked(seed: number): { walk: Walk; told: Telling } {
  const walk = new Walk(seed, book);
  const { told } = walk;
  const most = walk.pick([5, 15, MOST_STEPS, MOST_STEPS]);
  for (let step = 0; step < most && told.step.do !== 'end'; step += 1) {
    walk.rest();
    walk.tell();
    if (walk.chance(0.05)) walk.undo();
  }
  const { step } = told;
  for (const { area, outcome, rung } of areaStates(book, told.entries)) {
    told.add({ type: 'outcome', area, outcome, rung });
  }
  told.add({ type: 'ended', reason: step.do === 'end' ? step.reason : 'stopped' });
  return { walk, told };
}

/** What a coach might make of a finding. */
function anyOf(walk: Walk, one: SaidFinding): Said {
  const result = walk.pick(RESULTS);
  const hurts = result === 'pain' || walk.chance(0.2);
  return {
    ...counting(one),
    result,
    faults: result === 'held' ? [] : walk.pick([[], ['back-rounded'], ['ribs-flared']]),
    ...(one.first.side !== null &&
      one.of === null && { side: walk.pick(['left', 'right'] as const) }),
    pain: hurts ? walk.pick([1, 2, 4, 7, 'unanswered' as const]) : null,
    painKind: hurts ? walk.pick(['known', 'new', 'unanswered'] as const) : null,
  };
}

function correct(told: Telling, one: SaidFinding, said: Said): void {
  const { finding, of } = one;
  for (const fact of correctionFacts(book, told.entries, { finding, of, said }, AT)) told.add(fact);
}

const outcomesOf = ({ entries }: Telling) =>
  new Map(areaStates(book, entries).map(({ area, outcome }) => [area, outcome]));

/** Each side of each check of a ready area was held: at first as it was said, or at its retest. */
function unseenIn(told: Telling): string[] {
  const course = courseOf(book, told.entries);
  const said = new Map(saidFindings(told.entries).map((one) => [one.finding.id, one.first.result]));
  return areaStates(book, told.entries)
    .filter(({ outcome }) => outcome === 'ready')
    .flatMap(({ area }) => {
      const at = course.areas.get(area)!;
      return at.all.flatMap(slotsOf).flatMap(({ key }) => {
        const first = at.checks.get(key)?.answer;
        const isHeld =
          at.retests.get(key)?.answer?.result === 'held' ||
          (first?.result === 'held' && said.get(first.entry ?? '') === 'held');
        return isHeld ? [] : [`${area}: ${key}`];
      });
    });
}

describe('corrections of any session', () => {
  it('counted anew with nothing corrected, a course is what it was', () => {
    for (let seed = 1; seed <= SESSIONS; seed += 1) {
      const { told } = walked(seed);
      const course = courseOf(book, told.entries);
      recountWith(course, []);
      expect({ seed, ...course }).toEqual({ seed, ...courseOf(book, told.entries) });
    }
  }, 120_000);

  it('14.1, 14.4 lose no entry, make nothing ready that was not seen held, and corrected back restore all of it', () => {
    const became = new Set<string>();
    for (let seed = 1; seed <= SESSIONS; seed += 1) {
      const { walk, told } = walked(seed);
      const log = [...told.entries];
      const stood = outcomeOf(book, log);
      const left = leftBy(log);
      const was = outcomesOf(told);
      const findings = saidFindings(log);
      if (findings.length === 0) continue;
      const chosen = [1, 2, 3].map(() => walk.pick(findings));
      for (const one of chosen) {
        correct(told, one, anyOf(walk, one));
        expect(told.entries.slice(0, log.length)).toEqual(log);
        expect(nextStep(book, told.entries).step.do).toBe('end');
        expect([seed, unseenIn(told)]).toEqual([seed, []]);
        for (const [area, outcome] of outcomesOf(told)) {
          became.add(`${was.get(area) as AreaOutcome} ${outcome}`);
          const now = leftBy(told.entries).areas.find((each) => each.area === area);
          expect([seed, area, now?.outcome]).toEqual([seed, area, outcome]);
        }
      }
      expect(saidFindings(told.entries)).toHaveLength(findings.length);
      for (const one of [...chosen].reverse()) correct(told, one, one.first);
      expect({ seed, ...outcomeOf(book, told.entries) }).toEqual({ seed, ...stood });
      const { areas, isWarned } = leftBy(told.entries);
      expect([seed, areas, isWarned]).toEqual([seed, left.areas, left.isWarned]);
    }
    for (const change of [
      'ready unfinished',
      'ready working',
      'ready referred',
      'referred working',
    ])
      expect([...became]).toContain(change);
  }, 120_000);

  it('14.7 of one finding take away no pain that was told with another', () => {
    for (let seed = 1; seed <= SESSIONS; seed += 1) {
      const { walk, told } = walked(seed);
      const findings = saidFindings(told.entries);
      if (findings.length === 0) continue;
      const one = walk.pick(findings);
      const others = () =>
        findingsOf(told.entries)
          .filter(({ id }) => id !== one.finding.id)
          .map(({ id, pain, painKind }) => [id, pain, painKind]);
      const before = others();
      correct(told, one, { ...one.first, result: 'held', faults: [], pain: null, painKind: null });
      expect(others()).toEqual(before);
      const flagged = told.entries.some(({ type }) => type === 'red-flag');
      if (flagged) expect(outcomeOf(book, told.entries).liftsReady).toEqual([]);
    }
  }, 120_000);

  it('come to the same, in whatever order different findings are corrected', () => {
    for (let seed = 1; seed <= SESSIONS; seed += 1) {
      const { walk, told } = walked(seed);
      const findings = saidFindings(told.entries);
      const chosen = findings
        .filter(() => walk.chance(0.3))
        .map((one) => [one, anyOf(walk, one)] as const);
      const comes = (order: typeof chosen) => {
        const { told: anew } = walked(seed);
        for (const [one, said] of order) correct(anew, one, said);
        return outcomeOf(book, anew.entries);
      };
      expect({ seed, ...comes([...chosen].reverse()) }).toEqual({ seed, ...comes(chosen) });
    }
  }, 120_000);
});
