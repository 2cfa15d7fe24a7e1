import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Handover } from '../../../src/domain/handover/handover';
import { nextTasks } from '../../../src/domain/handover/progress';
import type { HomeworkDay } from '../../../src/domain/handover/progressDay';
import { LOAD_RANK } from '../../../src/domain/handover/progressLoad';
import { AREAS, type Area } from '../../../src/domain/areas';
import type { Entry } from '../../../src/domain/log';
import { momentAt } from '../../../src/session/startedAt';
import { book, folded, handedOver, type Answer } from './days';

const LADDERS = AREAS.map((area) => ({ area, rungs: book.ladders[area]?.rungs ?? [] }));
const drillsOf = (area: Area, rung: number) => {
  const here = book.ladders[area]?.rungs[rung - 1];
  return here === undefined ? [] : [here.drill, ...(here.alternates ?? [])];
};
const EVERY = LADDERS.flatMap(({ area, rungs }) =>
  rungs.flatMap((_, at) => drillsOf(area, at + 1).map((drill) => ({ area, drill, rung: at + 1 }))),
);

const tasks = fc
  .uniqueArray(fc.constantFrom(...EVERY), {
    minLength: 1,
    maxLength: 3,
    selector: (one) => one.area,
  })
  .chain((those) =>
    fc.tuple(
      ...those.map((one) =>
        fc.boolean().map((isEased) => {
          const easier = book.drills[one.drill]?.easier?.load;
          return { ...one, load: isEased && easier ? easier : ('as-written' as const) };
        }),
      ),
    ),
  );
const handovers: fc.Arbitrary<Handover> = fc
  .record({
    tasks,
    missing: fc.subarray(Object.keys(book.equipment), { maxLength: 6 }),
    allowedAlone: fc.subarray(EVERY.map(({ drill }) => drill)),
  })
  .map(({ tasks: handed, ...rest }) => handedOver(handed, rest));
const answers: fc.Arbitrary<Answer[]> = fc.array(
  fc.oneof(
    { weight: 12, arbitrary: fc.constant<Answer>({ say: 'held' }) },
    { weight: 4, arbitrary: fc.constantFrom<Answer>({ say: 'lost' }, { say: 'short' }) },
    { weight: 1, arbitrary: fc.constantFrom<Answer>({ say: 'not-tested' }, 'stop') },
    {
      weight: 2,
      arbitrary: fc.record({
        pain: fc.oneof(fc.integer({ min: 0, max: 10 }), fc.constant('unanswered' as const)),
        kind: fc.constantFrom('known' as const, 'known' as const, 'new' as const, 'sharp' as const),
      }),
    },
    {
      weight: 2,
      arbitrary: fc.constantFrom<Answer>(
        ...(['again', 'skip', 'back', 'lighter', 'heavier', 'next'] as const).map((coach) => ({
          coach,
        })),
      ),
    },
  ),
  { maxLength: 10 },
);
/** Sessions some hours apart, each on some clock on the wall. */
const sessions = fc.array(
  fc.record({
    hours: fc.integer({ min: 1, max: 40 }),
    offsetMinutes: fc.integer({ min: -12 * 4, max: 14 * 4 }).map((quarter) => quarter * 15),
    said: answers,
  }),
  { minLength: 1, maxLength: 7 },
);

interface Walked {
  day: HomeworkDay;
  at: string;
  log: Entry[];
}

function walked(
  handover: Handover,
  days: typeof sessions extends fc.Arbitrary<infer T> ? T : never,
) {
  const all: Walked[] = [];
  let now = Date.UTC(2031, 2, 1, 9);
  for (const { hours, offsetMinutes, said } of days) {
    now += hours * 3600_000;
    const at = momentAt(now, offsetMinutes);
    const day = nextTasks(
      book,
      handover,
      all.map(({ log }) => log),
      at,
    );
    all.push({ day, at, log: day.tasks.length === 0 ? [] : folded(day, at, said) });
  }
  return all;
}

/** What was done of a log: drills with their loads and rungs. */
const doneIn = ({ log }: Walked) =>
  log.flatMap((entry) => {
    const on = EVERY.find(({ drill }) => entry.type === 'finding' && entry.drill === drill);
    return entry.type === 'finding' && on ? [{ ...on, load: entry.load ?? 'as-written' }] : [];
  });

const RUNS = { numRuns: 120 };

type Days = typeof sessions extends fc.Arbitrary<infer T> ? T : never;
const always = (what: string, holds: (handover: Handover, days: Days) => void) =>
  it(what, () => {
    fc.assert(fc.property(handovers, sessions, holds), RUNS);
  });

describe('homework over days, whatever is said', () => {
  always('15.4 never asks for more load than was handed over', (handover, days) => {
    for (const one of walked(handover, days)) {
      for (const { area, drill, load } of [...one.day.tasks, ...doneIn(one)]) {
        const handed = handover.tasks.find((task) => task.area === area)!;
        const script = book.drills[drill]!;
        if (drill === handed.drill || script.easier !== null || script.loaded)
          expect(LOAD_RANK[load]).toBeLessThanOrEqual(LOAD_RANK[handed.load]);
        const mayLoad = book.drills[handed.drill]!.loaded || handover.allowedAlone.includes(drill);
        expect(script.loaded && !mayLoad).toBe(false);
      }
    }
  });

  always(
    '15.7, 15.10 never goes up two rungs on one calendar day, nor from one time to the next',
    (handover, days) => {
      const all = walked(handover, days);
      for (const area of AREAS) {
        const did = all.flatMap((one) => {
          const rungs = doneIn(one).flatMap((done) => (done.area === area ? [done.rung] : []));
          return rungs.length === 0 ? [] : [{ date: one.at.slice(0, 10), rungs }];
        });
        const handed = handover.tasks.find((task) => task.area === area);
        for (const [at, { date, rungs }] of did.entries()) {
          const before = did[at - 1];
          const highest = Math.max(...rungs);
          if (before === undefined) expect(highest).toBeLessThanOrEqual(handed!.rung);
          else expect(highest).toBeLessThanOrEqual(before.rungs.at(-1)! + 1);
          // Another date may lie between two of one date: who travels west has it twice.
          const sameDay = did.slice(0, at).filter((one) => one.date === date);
          if (sameDay.length > 0)
            expect(highest).toBeLessThanOrEqual(Math.max(...sameDay.flatMap((one) => one.rungs)));
          if (before !== undefined && date <= before.date)
            expect(highest).toBeLessThanOrEqual(Math.max(...before.rungs));
        }
      }
    },
  );

  always(
    '15.11 never does a drill that was not allowed alone, or that needs what is not there',
    (handover, days) => {
      for (const one of walked(handover, days)) {
        for (const { drill } of [...one.day.tasks, ...doneIn(one)]) {
          const { aloneOnlyIfAllowed, equipment } = book.drills[drill]!;
          expect(aloneOnlyIfAllowed === true && !handover.allowedAlone.includes(drill)).toBe(false);
          const lacks = equipment.filter(
            (id) => handover.missing.includes(id) && book.equipment[id]?.orElse === undefined,
          );
          expect(lacks).toEqual([]);
        }
      }
    },
  );

  always(
    '15.6, 15.11 new pain ends an area for good, and what hurt is never done again',
    (handover, days) => {
      const over = new Set<Area>();
      const below = new Map<Area, number>();
      for (const { day, log } of walked(handover, days)) {
        for (const { area, rung } of day.tasks) {
          expect(over).not.toContain(area);
          expect(rung).toBeLessThan(below.get(area) ?? Infinity);
        }
        log.forEach((entry, at) => {
          const on = EVERY.find(({ drill }) => entry.type === 'finding' && entry.drill === drill);
          if (entry.type !== 'finding' || entry.pain === null || entry.pain === 0 || !on) return;
          const kind = log.slice(at + 1).find(({ type }) => type === 'pain-kind');
          if (kind?.type === 'pain-kind' && kind.kind !== 'known') over.add(on.area);
          if (entry.pain > handover.painRefersAbove) over.add(on.area);
          else if (entry.pain > handover.painGoesOnUpTo)
            below.set(on.area, Math.min(below.get(on.area) ?? Infinity, on.rung));
        });
      }
    },
  );

  always(
    '15.2 never does more sets of a drill than its dose, but for those asked for again',
    (handover, days) => {
      for (const { log } of walked(handover, days)) {
        if (log.some((entry) => entry.type === 'overrule')) continue;
        const sets = new Map<string, number>();
        for (const entry of log)
          if (entry.type === 'finding' && entry.pain !== 0 && entry.side !== 'right')
            sets.set(entry.drill!, (sets.get(entry.drill!) ?? 0) + 1);
        for (const [drill, count] of sets)
          expect(count).toBeLessThanOrEqual(book.drills[drill]!.dose.sets);
      }
    },
  );

  always('is the same again for the same logs, in whatever order', (handover, days) => {
    const all = walked(handover, days);
    const logs = all.map(({ log }) => log);
    const now = '2031-06-01T09:00:00Z';
    const day = nextTasks(book, handover, logs, now);
    expect(nextTasks(book, handover, logs.toReversed(), now)).toEqual(day);
    expect(nextTasks(book, handover, structuredClone(logs), now)).toEqual(day);
  });
});
