/** "Same on the right", and a second result for a side that has one. */
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/domain/log';
import { seeded } from './seeded';
import { book, openBench, STARTED, type Bench, type BenchOptions } from './bench';

const PASSIVE = 'check/overhead-passive';
const PRESS = 'set/half-kneeling-press';

/** At the question of the left arm. */
const atLeft = (options: BenchOptions = {}): Bench => {
  const bench = openBench({ routine: 'overhead', ...options });
  bench.untilAsked(PASSIVE);
  return bench;
};
/** At the question of the right arm, after what was said of the left. */
const atRight = (left = 'one forty ribs flared'): Bench => {
  const bench = atLeft();
  bench.hear(left);
  bench.untilAsked(PASSIVE);
  return bench;
};
/** At the question of the left side of a set that is done on each side. */
const atPress = (): Bench => {
  const bench = atRight('pass');
  bench.hear('pass');
  bench.untilAsked('check/overhead-active-lying');
  bench.hear('ribs flared');
  bench.untilAsked();
  bench.hear('go to the half-kneeling press');
  bench.untilAsked(PRESS);
  return bench;
};
const findings = (bench: Bench) => bench.logged('finding');
/** The sentence that offers what was understood. */
const offer = (bench: Bench) => {
  bench.untilAsked('confirm');
  return bench.cues().at(-1);
};
const yes = (bench: Bench) => {
  if (bench.prompt() !== 'confirm' || bench.of('listen').at(-1)?.prompt !== 'confirm')
    bench.untilAsked('confirm');
  bench.hear('yes');
};
const after = (entries: Entry[], seconds: number) =>
  openBench({
    routine: 'overhead',
    log: entries,
    atMilliseconds: STARTED + (entries.at(-1)?.atSeconds ?? 0) * 1000 + seconds * 1000,
  });

describe('"same"', () => {
  it.each([
    'same',
    'same on the right',
    'right the same',
    'right, same',
    'same again',
    'ditto',
    'same as the left',
    'left is the same',
    'same other side',
    'exactly the same on the right side',
    'the other side is the same',
    'and the right one is about the same',
  ])('"%s" offers the finding of the other side, and a yes records it', (text) => {
    const bench = atRight();
    bench.hear(text);
    expect(findings(bench)).toHaveLength(1);
    expect(offer(bench)).toBe('Right: one forty, ribs?');
    expect(bench.of('heard').at(-1)).toMatchObject({
      verdict: 'confirm',
      readback: 'right, one forty, ribs',
    });
    yes(bench);
    expect(findings(bench).at(-1)).toMatchObject({
      check: 'overhead-passive',
      side: 'right',
      result: 'lost',
      faults: ['ribs-flared'],
      angleDegrees: 140,
      tool: 'eye',
      pain: null,
      source: { by: 'voice', text },
    });
    bench.untilAsked();
    expect(bench.prompt()).not.toBe(PASSIVE);
  });

  it('declined asks anew, and nothing is recorded', () => {
    const bench = atRight();
    bench.hear('same on the right');
    bench.untilAsked('confirm');
    bench.hear('no');
    bench.untilAsked(PASSIVE);
    expect(bench.cues().at(-1)).toBe(book.checks['overhead-passive']?.ask);
    bench.hear('pass');
    expect(findings(bench).map(({ side, result }) => [side, result])).toEqual([
      ['left', 'lost'],
      ['right', 'held'],
    ]);
  });

  it('is never taken for a yes by silence', () => {
    const bench = atRight();
    bench.hear('same on the right');
    bench.seconds(3600);
    expect(findings(bench)).toHaveLength(1);
    bench.hear('limited');
    expect(findings(bench).at(-1)).toMatchObject({ side: 'right', result: 'short' });
  });

  it('gives way to another answer, which is offered in its turn', () => {
    const bench = atRight();
    bench.hear('same on the right');
    bench.untilAsked('confirm');
    bench.hear('right one fifty limited');
    expect(offer(bench)).toContain('one fifty');
    yes(bench);
    expect(findings(bench).at(-1)).toMatchObject({ result: 'short', angleDegrees: 150 });
  });

  it.each(['same on the right', 'same', 'left is the same'])(
    '"%s" with nothing on the other side says so, and the question stays open',
    (text) => {
      const bench = atLeft();
      bench.hear(text);
      bench.untilAsked(PASSIVE);
      expect(bench.cues()).toContain('I have nothing for the right yet.');
      bench.hear('left pass');
      expect(findings(bench)).toMatchObject([{ side: 'left', result: 'held' }]);
    },
  );

  it('where there are no sides says so, and the question stays open', () => {
    const bench = openBench();
    bench.untilAsked('check/hinge-unloaded');
    bench.hear('same');
    bench.untilAsked('check/hinge-unloaded');
    expect(bench.cues()).toContain(book.lines['say.lacks']);
    expect(findings(bench)).toEqual([]);
  });

  it('spoken early is kept, and offered instead of the question', () => {
    const bench = atLeft();
    bench.hear('one forty ribs flared');
    bench.clock.runUntil(() => bench.of('phase').at(-1)?.phase === 'exhaling', 600_000);
    bench.hear('same on the right');
    expect(findings(bench)).toHaveLength(1);
    expect(offer(bench)).toBe('Right: one forty, ribs?');
    bench.hear('yes');
    expect(findings(bench).at(-1)).toMatchObject({ side: 'right', angleDegrees: 140 });
  });

  it('10.11 never repeats pain: where the other side hurt, pain is asked for this one', () => {
    const bench = atLeft();
    bench.hear('limited, pain two');
    bench.untilAsked('pain/kind');
    bench.hear('known');
    bench.untilAsked(PASSIVE);
    bench.hear('same on the right');
    expect(offer(bench)).toBe('Right: limited?');
    yes(bench);
    expect(findings(bench).at(-1)).toMatchObject({ side: 'right', result: 'short', pain: null });
    bench.untilAsked();
    expect(bench.prompt()).toBe('pain/how-much');
    bench.hear('zero');
    bench.untilAsked();
    // The result stands: the check is not done again.
    expect(findings(bench)).toHaveLength(2);
    expect(bench.prompt()).not.toBe(PASSIVE);
  });

  it('after a side that only hurt asks at once how much this one does', () => {
    const bench = atLeft();
    bench.hear('pain three');
    bench.untilAsked('pain/kind');
    bench.hear('known');
    bench.untilAsked(PASSIVE);
    bench.hear('same on the right');
    bench.untilAsked();
    expect(bench.prompt()).toBe('pain/how-much');
    expect(findings(bench).at(-1)).toMatchObject({ side: 'right', result: 'pain', pain: null });
  });

  it('said with "no pain" does not ask for it', () => {
    const bench = atLeft();
    bench.hear('limited, pain two');
    bench.untilAsked('pain/kind');
    bench.hear('known');
    bench.untilAsked(PASSIVE);
    bench.hear('same on the right, no pain');
    yes(bench);
    bench.untilAsked();
    expect(findings(bench).at(-1)).toMatchObject({ side: 'right', result: 'short', pain: 0 });
    expect(bench.prompt()).not.toBe('pain/how-much');
  });

  it('10.11 repeats the other side of the set at hand', () => {
    const bench = atPress();
    bench.hear('ribs flared');
    bench.untilAsked(PRESS);
    bench.hear('same on the right');
    yes(bench);
    expect(findings(bench).at(-1)).toMatchObject({
      drill: 'half-kneeling-press',
      side: 'right',
      faults: ['ribs-flared'],
    });
    bench.untilAsked(PRESS);
    // A new set: the sides of the one before are not this one's.
    bench.hear('same');
    bench.untilAsked(PRESS);
    expect(bench.cues()).toContain('I have nothing for the right yet.');
  });

  it('"same on the right" from the left that the coach went back to is of the right', () => {
    const bench = atRight();
    bench.hear('go back');
    bench.untilAsked(PASSIVE);
    bench.hear('same on the right');
    expect(offer(bench)).toBe('Right: one forty, ribs?');
    bench.hear('yes');
    expect(findings(bench).at(-1)).toMatchObject({ side: 'right', angleDegrees: 140 });
  });

  it('takes an answer by hand to the same offer', () => {
    const bench = atRight();
    bench.hand({ same: true });
    yes(bench);
    expect(findings(bench).at(-1)).toMatchObject({ side: 'right', source: { by: 'hand' } });
  });

  it('that was offered when the session was cut off is offered again', () => {
    const before = atRight();
    before.hear('same on the right');
    before.untilAsked('confirm');
    const bench = after(before.entries, 300);
    expect(offer(bench)).toBe('Right: one forty, ribs?');
    expect(findings(bench)).toEqual([]);
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([
      { side: 'right', source: { text: 'same on the right' } },
    ]);
  });
});

describe('a second result for a side', () => {
  it('10.10 is asked about; a yes records it, and the open side is asked for again', () => {
    const bench = atRight();
    const beats = bench.of('beat').length;
    bench.hear('left one sixty pass');
    expect(findings(bench)).toHaveLength(1);
    expect(offer(bench)).toBe('Left again: one sixty, pass?');
    const work = bench.of('beat').length;
    expect(work).toBe(beats);
    yes(bench);
    expect(findings(bench).at(-1)).toMatchObject({
      side: 'left',
      result: 'held',
      angleDegrees: 160,
    });
    bench.untilAsked();
    expect(bench.prompt()).toBe(PASSIVE);
    expect(bench.of('step').at(-1)).toMatchObject({ side: 'right' });
    // The work of that side was done already.
    expect(bench.of('beat')).toHaveLength(beats);
    bench.hear('pass');
    expect(findings(bench).at(-1)).toMatchObject({ side: 'right', result: 'held' });
    bench.untilAsked();
    expect(bench.prompt()).toBe('check/overhead-active-lying');
  });

  it('after a no the first stands, and the open side is asked for', () => {
    const bench = atRight();
    bench.hear('left one sixty pass');
    bench.untilAsked('confirm');
    bench.hear('no');
    bench.untilAsked(PASSIVE);
    bench.hear('pass');
    expect(findings(bench).map(({ side, result }) => [side, result])).toEqual([
      ['left', 'lost'],
      ['right', 'held'],
    ]);
  });

  it('is never taken by silence', () => {
    const bench = atRight();
    bench.hear('left one sixty pass');
    bench.seconds(3600);
    expect(findings(bench)).toHaveLength(1);
  });

  it('said of both sides is asked about too', () => {
    const bench = atRight();
    bench.hear('both one sixty pass');
    expect(offer(bench)).toBe('Both again: one sixty, pass?');
    yes(bench);
    expect(findings(bench).at(-1)).toMatchObject({ side: 'both', result: 'held' });
    bench.untilAsked();
    expect(bench.prompt()).toBe('check/overhead-active-lying');
  });

  it('of a set with sides is asked about too', () => {
    const bench = atPress();
    bench.hear('ribs flared');
    bench.untilAsked(PRESS);
    bench.hear('left clean');
    expect(offer(bench)).toBe('Left again: pass?');
    yes(bench);
    bench.untilAsked(PRESS);
    bench.hear('clean');
    expect(
      findings(bench)
        .slice(-2)
        .map(({ side, result }) => [side, result]),
    ).toEqual([
      ['left', 'held'],
      ['right', 'held'],
    ]);
    expect(bench.logged('decision').at(-1)?.rule).toBe('2.2');
  });

  it.each([
    ['undo', 'undo'],
    ['going back', 'go back'],
  ])('needs no question after %s: the side is at hand', (_, words) => {
    const bench = atRight();
    bench.hear(words);
    bench.untilAsked(PASSIVE);
    bench.hear('left one sixty pass');
    expect(findings(bench).at(-1)).toMatchObject({ side: 'left', result: 'held' });
  });

  it('by hand is asked about too', () => {
    const bench = atRight();
    bench.hand({ side: 'left', result: 'held' });
    expect(findings(bench)).toHaveLength(1);
    yes(bench);
    expect(findings(bench)).toHaveLength(2);
  });

  it('10.10 with pain counts at once: pain does not wait', () => {
    const bench = atRight();
    bench.hear('left pain four');
    expect(findings(bench).at(-1)).toMatchObject({ side: 'left', pain: 4 });
    const other = atRight();
    other.hear('left limited, pain two');
    expect(findings(other).at(-1)).toMatchObject({ side: 'left', result: 'short', pain: 2 });
  });

  it('is no question where the other side is named first', () => {
    const bench = atLeft();
    bench.hear('right one sixty pass');
    expect(findings(bench)).toMatchObject([{ side: 'right' }]);
    bench.untilAsked(PASSIVE);
    bench.hear('right one fifty limited');
    expect(offer(bench)).toBe('Right again: one fifty, limited?');
  });

  it('that was offered when the session was cut off is offered again', () => {
    const before = atRight();
    before.hear('left one sixty pass');
    before.untilAsked('confirm');
    const bench = after(before.entries, 300);
    expect(offer(bench)).toBe('Left again: one sixty, pass?');
    bench.hear('yes');
    bench.untilAsked();
    expect(findings(bench)).toMatchObject([{ side: 'left', result: 'held' }]);
    expect(bench.of('step').at(-1)).toMatchObject({ side: 'right' });
    expect(bench.prompt()).toBe(PASSIVE);
  });
});

describe('any walk through the sides', () => {
  const SAID = [
    ...['same', 'same on the right', 'left is the same', 'left one sixty pass', 'right limited'],
    ...['both pass', 'one forty ribs flared', 'pass', 'limited, pain two', 'pass, ribs flared'],
    ...['yes', 'yes', 'no', 'undo', 'go back', 'again', 'known', 'zero', 'pause', 'resume'],
    ...['go to the half-kneeling press', 'lighter', 'stop', 'next'],
  ];
  const told = (bench: Bench) => findings(bench).length;

  it.each(Array.from({ length: 30 }, (_, seed) => seed + 1))(
    'silence adds no finding, and a reload comes to the same place (seed %d)',
    (seed) => {
      const random = seeded(seed);
      let bench = atLeft();
      const path: string[] = [];
      for (let step = 0; step < 30 && !bench.isOver(); step++) {
        const words = SAID[Math.floor(random() * SAID.length)] as string;
        path.push(words);
        bench.hear(words);
        const before = told(bench);
        bench.seconds(random() < 0.5 ? 45 : 600);
        expect(told(bench), path.join(', ')).toBe(before);
        expect(bench.actor.getSnapshot().status, path.join(', ')).not.toBe('error');
        if (random() > 0.2 || bench.isOver()) continue;
        const { log, decision } = bench.actor.getSnapshot().context;
        bench = after([...log], 5);
        expect(bench.actor.getSnapshot().context.decision?.step, path.join(', ')).toEqual(
          decision?.step,
        );
        expect(told(bench)).toBe(0);
      }
    },
  );

  it('a side is answered twice only after a yes', () => {
    for (let seed = 31; seed <= 60; seed++) {
      const random = seeded(seed);
      const bench = atLeft();
      const path: string[] = [];
      for (let step = 0; step < 20 && !bench.isOver(); step++) {
        const words = SAID[Math.floor(random() * SAID.length)] as string;
        path.push(words);
        const { decision } = bench.actor.getSnapshot().context;
        const side = decision?.step.do === 'check' ? decision.step.side : null;
        const answered = findings(bench).some((one) => one.check === 'overhead-passive');
        const before = told(bench);
        bench.hear(words);
        const added = findings(bench).slice(before)[0];
        bench.seconds(20);
        // Said for another side than the one at hand, with something on record already.
        if (added?.check !== 'overhead-passive' || side === null || !answered) continue;
        if (added.side === side || added.result === 'pain' || added.pain !== null) continue;
        if (path.includes('undo') || path.includes('go back')) continue;
        expect(words, path.join(', ')).toBe('yes');
      }
    }
  });
});
