import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../../../src/cli/verb';
import { secondsOf } from '../../../src/cli/durations';
import { misfits, neededFor, stationCards } from '../../../src/domain/warmUp/equipping';
import { planWarmUp, type WarmUpPlan } from '../../../src/domain/warmUp/planning';
import { turnsOf } from '../../../src/domain/warmUp/turns';
import { WORK_SECONDS, type WarmUp } from '../../../src/domain/warmUp/warmUp';
import { anyWarmUp } from './anyWarmUp';

const book = bookOf();
const shipped = Object.values(book.warmUps);
const planned = (warmUp: WarmUp, options: Parameters<typeof planWarmUp>[3] = {}): WarmUpPlan => {
  const plan = planWarmUp(book, warmUp, secondsOf, options);
  if ('leastSeconds' in plan) throw new Error(`It takes ${plan.leastSeconds} s at least.`);
  return plan;
};
const close = (seconds: number) => expect.closeTo(seconds, 6) as number;

const warmUps = anyWarmUp(book);

/** Blocks follow each other without a gap, and nothing that is heard runs into the next. */
function expectInOrder(plan: WarmUpPlan): void {
  plan.turns.forEach((turn, at) => {
    const before = plan.turns[at - 1];
    if (before) expect(turn.atSeconds).toEqual(close(before.endSeconds));
    expect(turn.workAtSeconds).toBeGreaterThan(turn.atSeconds);
    expect(turn.endSeconds).toBeGreaterThan(turn.workAtSeconds);
  });
  const spoken = plan.heard.flatMap((one) =>
    one.do === 'cue'
      ? [{ from: one.atSeconds, to: one.atSeconds + one.seconds, what: one.text }]
      : one.do === 'beat' && one.text !== null
        ? [{ from: one.atSeconds, to: one.atSeconds + secondsOf(one.text), what: one.text }]
        : [],
  );
  spoken.forEach(({ from, what }, at) => {
    const before = spoken[at - 1];
    if (before && before.to > from + 1e-6)
      throw new Error(`"${before.what}" to ${before.to} runs into "${what}" at ${from}`);
  });
}

describe('a warm-up is planned', () => {
  it('whatever it holds: blocks sum to the plan, and nothing overlaps', () => {
    fc.assert(
      fc.property(warmUps, (warmUp) => {
        const plan = planned(warmUp);
        expectInOrder(plan);
        const [first] = plan.turns;
        const last = plan.turns.at(-1);
        const blocks = plan.turns.reduce(
          (sum, { atSeconds, endSeconds }) => sum + endSeconds - atSeconds,
          0,
        );
        const opening = first?.atSeconds ?? 0;
        const closing = plan.totalSeconds - (last?.endSeconds ?? 0);
        expect(opening + blocks + closing).toEqual(close(plan.totalSeconds));
        expect(plan.turns).toHaveLength(turnsOf(book, warmUp, secondsOf).length);
        expect(plan.leftOut).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });

  it('the end that was promised is kept to the second, work and changes stay within their bounds, and every caution of what is done is said', () => {
    fc.assert(
      fc.property(warmUps, fc.double({ min: 0.3, max: 1, noNaN: true }), (warmUp, share) => {
        const written = planned(warmUp).totalSeconds;
        const endSeconds = Math.round(written * share);
        const plan = planWarmUp(book, warmUp, secondsOf, { endSeconds });
        if ('leastSeconds' in plan) {
          expect(plan.leastSeconds).toBeGreaterThan(endSeconds);
          // What it says is the shortest can be had.
          expect(
            planWarmUp(book, warmUp, secondsOf, { endSeconds: plan.leastSeconds }),
          ).toMatchObject({
            totalSeconds: close(plan.leastSeconds),
          });
          return;
        }
        expect(plan.totalSeconds).toEqual(close(endSeconds));
        expectInOrder(plan);
        const said = plan.heard.flatMap((one) => (one.do === 'cue' ? [one.text] : []));
        expect(said).toContain(book.lines['group.caution']);
        for (const { turn, atSeconds, workAtSeconds, endSeconds: end } of plan.turns) {
          expect(workAtSeconds - atSeconds).toBeGreaterThanOrEqual(turn.change.least - 1e-6);
          if (turn.breathing) expect(end - workAtSeconds).toEqual(close(turn.work.written));
          else expect(end - workAtSeconds).toBeGreaterThanOrEqual(WORK_SECONDS.least - 1e-6);
          const drill = Object.values(book.drills).find(({ name }) => name === turn.name);
          if (drill) expect(said).toContain(drill.caution);
        }
      }),
      { numRuns: 100 },
    );
  });

  it('what is left after some turns, a pause or a late start still ends then', () => {
    fc.assert(
      fc.property(
        warmUps,
        fc.integer({ min: 1, max: 5 }),
        fc.integer({ min: 0, max: 60 }),
        (warmUp, over, late) => {
          const whole = planned(warmUp);
          const done = Math.min(over, whole.turns.length - 1);
          fc.pre(done > 0);
          const from = whole.turns[done]?.atSeconds ?? 0;
          const endSeconds = whole.totalSeconds - from - late;
          const plan = planWarmUp(book, warmUp, secondsOf, { done, endSeconds });
          if ('leastSeconds' in plan) {
            expect(plan.leastSeconds).toBeGreaterThan(endSeconds);
            return;
          }
          expect(plan.totalSeconds).toEqual(close(endSeconds));
          expect(whole.turns.slice(done).map(({ turn }) => turn.name)).toContain(
            plan.turns[0]?.turn.name,
          );
          // Who is underway is not welcomed.
          expect(plan.turns[0]?.atSeconds).toBe(0);
        },
      ),
      { numRuns: 100 },
    );
  });

  it('after a turn was skipped the others grow, as far as usual', () => {
    const warmUp = book.warmUps['four-stations']!;
    const whole = planned(warmUp);
    const left = whole.totalSeconds - (whole.turns[1]?.atSeconds ?? 0);
    const plan = planned(warmUp, { done: 2, endSeconds: left });
    expect(plan.totalSeconds).toEqual(close(left));
    const works = plan.turns.map(({ workAtSeconds, endSeconds }) => endSeconds - workAtSeconds);
    for (const seconds of works) expect(seconds).toBeLessThanOrEqual(WORK_SECONDS.most + 1e-6);
    expect(Math.min(...works)).toBeGreaterThan(30);
  });
});

describe('what a group hears', () => {
  it.each(shipped.map((warmUp) => [warmUp.id, warmUp] as const))(
    '%s takes 8 to 12 minutes (common practice, no source)',
    (_, warmUp) => {
      const { totalSeconds } = planned(warmUp);
      expect(totalSeconds).toBeGreaterThanOrEqual(8 * 60);
      expect(totalSeconds).toBeLessThanOrEqual(12 * 60);
    },
  );

  it('a turn is named, shown and cautioned, counted in, halved, warned five seconds before its end', () => {
    const plan = planned(book.warmUps['before-the-bar']!);
    const at = plan.turns.findIndex(({ turn }) => turn.name === 'the wall hinge');
    const { atSeconds, workAtSeconds, endSeconds } = plan.turns[at]!;
    const heard = plan.heard
      .filter((one) => one.atSeconds >= atSeconds && one.atSeconds < endSeconds)
      .map((one) => [
        Math.round((one.atSeconds - workAtSeconds) * 10) / 10,
        one.do === 'tone' ? one.name : one.text,
      ]);
    expect(heard.slice(-9)).toEqual([
      [-3, 'three'],
      [-2, 'two'],
      [-1, 'one'],
      [0, 'begin'],
      [20, book.lines['group.halfway']],
      [35, book.lines['group.five-seconds']],
      [37, null],
      [38, null],
      [39, null],
    ]);
    const told = heard.filter(([second]) => Number(second) < -3).map(([, text]) => text);
    expect(told).toEqual([
      'Next, the wall hinge.',
      expect.stringMatching(/wall/) as string,
      book.drills['wall-hinge']?.caution,
    ]);
  });

  it('a drill that comes again is only named, and breaths are counted aloud second by second', () => {
    const plan = planned(book.warmUps['before-the-bar']!);
    const again = plan.turns.filter(({ turn }) => turn.name === 'the wall hinge')[1];
    expect(again?.turn.told).toEqual(['Next, the wall hinge.']);
    const breaths = plan.turns.find(({ turn }) => turn.breathing !== null)!;
    const counts = plan.heard.flatMap((one) =>
      one.do === 'beat' &&
      one.atSeconds >= breaths.workAtSeconds &&
      one.atSeconds < breaths.endSeconds
        ? [one.text]
        : [],
    );
    expect(counts.slice(0, 6)).toEqual(['one', 'two', 'three', 'four', 'five', 'six']);
    expect(counts).toHaveLength(30);
  });

  it('says how long it takes, in minutes as they are', () => {
    const plan = planned(book.warmUps['before-the-bar']!);
    const minutes = Math.round(plan.totalSeconds / 60);
    expect(minutes).toBe(9);
    const [welcome] = plan.heard.flatMap((one) => (one.do === 'cue' ? [one.text] : []));
    expect(welcome).toContain('about nine minutes');
    expect(planned(book.warmUps['before-the-bar']!, { endSeconds: 60 }).heard).toContainEqual(
      expect.objectContaining({ text: expect.stringMatching(/about one minute\./) as string }),
    );
  });

  it('where one side works at a time, the sides change in the middle', () => {
    const { id } = Object.values(book.drills).find(({ sided }) => sided)!;
    const block = { do: 'work', drill: id, demo: 'Watch once.' } as const;
    const plan = planned({
      ...{ id: 'any', name: 'any warm-up' },
      parts: [
        {
          ...{ arrangement: 'together', rounds: 1 },
          blocks: [{ ...block, workSeconds: 20, changeSeconds: 15 }],
        },
      ],
    });
    const { workAtSeconds } = plan.turns[0]!;
    expect(plan.heard).toContainEqual({
      ...{ do: 'cue', atSeconds: close(workAtSeconds + 10), text: book.lines['group.other-side'] },
      seconds: expect.any(Number) as number,
    });
    expect(plan.heard.some((one) => one.do === 'cue' && one.text === 'Halfway.')).toBe(false);
  });

  it('made shorter, work goes first, then breaths, then rounds, and last what stands at the end', () => {
    const warmUp = book.warmUps['before-the-bar']!;
    const whole = planned(warmUp);
    const of = (endSeconds: number) => planned(warmUp, { endSeconds });
    const breathsIn = ({ turns }: WarmUpPlan) => turns[0]?.turn.breathing?.breaths;
    const slightly = of(Math.round(whole.totalSeconds - 60));
    expect([slightly.turns.length, breathsIn(slightly)]).toEqual([whole.turns.length, 5]);
    const less = of(330);
    expect([less.turns.length, breathsIn(less)]).toEqual([whole.turns.length, 3]);
    const once = of(250);
    expect(once.leftOut).toEqual([]);
    expect(once.turns.length).toBeLessThan(whole.turns.length);
    const little = of(90);
    expect(little.turns[0]?.turn.name).toBe('long breaths out');
    expect(little.leftOut).toContain('the stick press');
  });

  it('is drawn out no further than people wait: then it ends before its time', () => {
    const plan = planned(book.warmUps['before-the-bar']!, { endSeconds: 3600 });
    expect(plan.totalSeconds).toBeLessThan(1200);
    for (const { atSeconds, workAtSeconds } of plan.turns)
      expect(workAtSeconds - atSeconds).toBeLessThanOrEqual(60 + 1e-6);
  });

  it('at stations each is shown once, before the first turn; then everybody moves on', () => {
    const plan = planned(book.warmUps['four-stations']!);
    expect(plan.turns).toHaveLength(12);
    expect(plan.turns[0]?.turn.told.filter((text) => text.startsWith('Station'))).toHaveLength(4);
    expect(plan.turns[0]?.turn.told.at(-1)).toBe(book.lines['group.to-stations']);
    expect(plan.turns[3]?.turn.told).toEqual([book.lines['group.move-on']]);
  });
});

describe('what a group needs', () => {
  it('one each where all work together, as many at a station as stand there at once', () => {
    expect(neededFor(book, book.warmUps['before-the-bar']!, 9)).toEqual([
      { equipment: 'stick', count: 9, station: null },
    ]);
    expect(neededFor(book, book.warmUps['four-stations']!, 9)).toEqual([
      { equipment: 'mat', count: 3, station: 3 },
      { equipment: 'stick', count: 3, station: 4 },
    ]);
  });

  it.each([
    [3, [{ part: 0, stations: 4, atOnce: 1, what: 'too-few-people' }]],
    [4, []],
    [32, []],
    [33, [{ part: 0, stations: 4, atOnce: 9, what: 'too-many-people' }]],
  ])('of %i people at four stations it tells whether they fit', (people, expected) => {
    expect(misfits(book.warmUps['four-stations']!, people)).toEqual(expected);
  });

  it('a card lies at each station: what is done, what good looks like, its caution, what lies there', () => {
    const cards = stationCards(book, book.warmUps['four-stations']!, 12);
    expect(cards.map(({ station, name, people }) => [station, name, people])).toEqual([
      [1, 'the wall hinge', 3],
      [2, 'the post squat', 3],
      [3, 'the hands and knees walkout', 3],
      [4, 'the stick press', 3],
    ]);
    expect(cards[3]).toMatchObject({
      caution: book.drills['stick-press']?.caution,
      equipment: [{ name: 'a light stick', count: 3 }],
    });
  });
});
