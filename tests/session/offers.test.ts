/** What is offered for a yes or a no, and everything that may be said of it besides. */
import { describe, expect, it } from 'vitest';
import { openBench, STARTED, type Bench, type BenchOptions } from './bench';

const PASSIVE = 'check/overhead-passive';
const HINGE = 'check/hinge-unloaded';
const UNSURE = 0.35;

const at = (prompt: string, options: BenchOptions = {}): Bench => {
  const bench = openBench({ routine: prompt === HINGE ? 'hinge' : 'overhead', ...options });
  bench.untilAsked(prompt);
  return bench;
};
const findings = (bench: Bench) => bench.logged('finding');
/** Words that were half heard, with the best words of another meaning beside them. */
const halfHear = (bench: Bench, text: string, other?: string, confidence = UNSURE) =>
  bench.ear({ type: 'words', text, confidence, prompt: bench.prompt(), ...(other && { other }) });
const offer = (bench: Bench) => {
  bench.untilAsked('confirm');
  return bench.cues().at(-1);
};

describe('two readings that are close', () => {
  it.each([
    [HINGE, 'pain', 'fail', 'Pain, or fail?'],
    [PASSIVE, 'left one fifteen limited', 'left one fifty limited', 'One fifteen, or one fifty?'],
    [PASSIVE, 'left pass', 'right pass', 'Left, or right?'],
    [PASSIVE, 'pass', 'ribs flared', 'Pass, or ribs?'],
    [HINGE, 'knees forward', 'pass', 'Knees forward, or pass?'],
    [
      PASSIVE,
      'left one fifteen limited',
      'right one fifty limited',
      'Left, one fifteen, limited, or right, one fifty, limited?',
    ],
    [HINGE, 'next', 'pass', 'Next, or pass?'],
  ])('at %s "%s" and "%s" are offered as "%s"', (prompt, text, other, sentence) => {
    const bench = at(prompt);
    halfHear(bench, text, other, 0.3);
    expect(findings(bench)).toEqual([]);
    expect(offer(bench)).toBe(sentence);
  });

  it.each([
    ['one fifty', 150],
    ['the second', 150],
    ['second one', 150],
    ['one fifteen', 115],
    ['first', 115],
    ['no, one fifty', 150],
    ['left one fifteen limited', 115],
  ])('"%s" chooses the one with %d degrees, whole', (answer, angleDegrees) => {
    const bench = at(PASSIVE);
    halfHear(bench, 'left one fifteen limited', 'left one fifty limited');
    bench.untilAsked('confirm');
    bench.hear(answer);
    expect(findings(bench)).toMatchObject([{ side: 'left', result: 'short', angleDegrees }]);
    expect(findings(bench)[0]?.source.text).toContain(answer);
  });

  it('a yes chooses neither: they are offered once more', () => {
    const bench = at(PASSIVE);
    halfHear(bench, 'left one fifteen limited', 'left one fifty limited');
    bench.untilAsked('confirm');
    bench.hear('yes');
    expect(findings(bench)).toEqual([]);
    expect(offer(bench)).toBe('One fifteen, or one fifty?');
    bench.hear('one fifty');
    expect(findings(bench)).toMatchObject([{ angleDegrees: 150 }]);
  });

  it('a no asks the question anew, and silence takes neither', () => {
    const bench = at(HINGE);
    halfHear(bench, 'knees forward', 'pass');
    bench.untilAsked('confirm');
    bench.seconds(3600);
    expect(findings(bench)).toEqual([]);
    const other = at(HINGE);
    halfHear(other, 'knees forward', 'pass');
    other.untilAsked('confirm');
    other.hear('no');
    other.untilAsked(HINGE);
    expect(findings(other)).toEqual([]);
  });

  it('another answer is offered in its turn', () => {
    const bench = at(PASSIVE);
    halfHear(bench, 'left one fifteen limited', 'left one fifty limited');
    bench.untilAsked('confirm');
    bench.hear('left pass');
    expect(offer(bench)).toBe('Left, pass?');
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([{ result: 'held' }]);
  });

  it('pain that is chosen counts at once, and how it failed is asked where that was meant', () => {
    const bench = at(HINGE);
    halfHear(bench, 'pain', 'fail', 0.3);
    bench.untilAsked('confirm');
    bench.hear('pain');
    expect(findings(bench)).toMatchObject([{ result: 'pain' }]);
    bench.untilAsked();
    expect(bench.prompt()).toBe('pain/how-much');
    const other = at(HINGE);
    halfHear(other, 'pain', 'fail', 0.3);
    other.untilAsked('confirm');
    other.hear('fail');
    other.seconds(1);
    expect(other.sounding()).toBe('Limited, or lost?');
    other.untilAsked(HINGE);
    other.hear('lost');
    expect(findings(other)).toMatchObject([{ result: 'lost' }]);
  });

  it('pain that is half heard while work goes on does not wait for an answer', () => {
    const bench = at(HINGE);
    bench.hear('knees forward');
    bench.clock.runUntil(() => bench.of('beat').length > 2, 600_000);
    halfHear(bench, 'pain', 'next', 0.3);
    expect(findings(bench).at(-1)).toMatchObject({ result: 'pain' });
  });

  it('a command that is chosen is done', () => {
    const bench = at(HINGE);
    halfHear(bench, 'skip', 'pass');
    bench.untilAsked('confirm');
    bench.hear('skip');
    expect(bench.logged('overrule')).toMatchObject([{ command: 'skip' }]);
  });

  it('of a pain number are told apart by the number', () => {
    const bench = at(HINGE);
    bench.hear('it hurts');
    bench.untilAsked('pain/how-much');
    halfHear(bench, 'five', 'nine', 0.3);
    expect(offer(bench)).toBe('Five, or nine?');
    bench.hear('nine');
    expect(bench.logged('pain-number')).toMatchObject([{ pain: 9 }]);
  });

  it('are chosen by hand too', () => {
    const bench = at(PASSIVE);
    halfHear(bench, 'left one fifteen limited', 'left one fifty limited');
    bench.untilAsked('confirm');
    const { either } = bench.of('heard').at(-1) ?? {};
    expect(either?.map(({ words }) => words)).toEqual(['one fifteen', 'one fifty']);
    bench.hand(either?.[1]?.reply ?? {});
    expect(findings(bench)).toMatchObject([{ result: 'short', angleDegrees: 150 }]);
  });

  it('are offered again after a reload', () => {
    const before = at(PASSIVE);
    halfHear(before, 'left one fifteen limited', 'left one fifty limited');
    before.untilAsked('confirm');
    const bench = openBench({
      routine: 'overhead',
      log: before.entries,
      atMilliseconds: STARTED + 900_000,
    });
    expect(offer(bench)).toBe('One fifteen, or one fifty?');
    bench.hear('one fifty');
    expect(findings(bench)).toMatchObject([{ angleDegrees: 150 }]);
  });

  it.each([
    ['pass', 'clear', 'Pass?'],
    ['pass', 'push your hips back', 'Pass?'],
    ['pass', 'pause', 'Pass?'],
    ['pass', 'stop', 'Pass?'],
  ])('"%s" is offered alone where "%s" is the other', (text, other, sentence) => {
    const bench = at(HINGE);
    halfHear(bench, text, other);
    expect(offer(bench)).toBe(sentence);
  });

  it('of which the first was surely heard need no question', () => {
    const bench = at(HINGE);
    halfHear(bench, 'pass', 'limited', 0.9);
    expect(findings(bench)).toMatchObject([{ result: 'held' }]);
  });
});

describe('an offer that is wrong in one thing', () => {
  const offered = (text = 'left one fifteen limited') => {
    const bench = at(PASSIVE);
    halfHear(bench, text);
    bench.untilAsked('confirm');
    return bench;
  };

  it.each([
    ['no, one fifty', { side: 'left', result: 'short', angleDegrees: 150 }],
    ['no one fifty', { side: 'left', result: 'short', angleDegrees: 150 }],
    ['no, right', { side: 'right', result: 'short', angleDegrees: 115 }],
    ['no, right one fifty', { side: 'right', result: 'short', angleDegrees: 150 }],
    ['no, ribs flared', { side: 'left', result: 'lost', faults: ['ribs-flared'] }],
    ['nope, lost', { side: 'left', result: 'lost', angleDegrees: 115 }],
  ])('"%s" puts it right, and what was not put right stands', (answer, wanted) => {
    const bench = offered();
    bench.hear(answer);
    expect(findings(bench)).toMatchObject([wanted]);
  });

  it('is asked about again where it is then a pass under the line', () => {
    const bench = offered('left one sixty pass');
    bench.hear('no, one forty');
    expect(findings(bench)).toEqual([]);
    expect(offer(bench)).toBe('Left, one forty, pass?');
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([{ result: 'held', angleDegrees: 140 }]);
  });

  it('a value without a no is offered in its place', () => {
    const bench = offered();
    bench.hear('one fifty');
    expect(findings(bench)).toEqual([]);
    expect(offer(bench)).toBe('Left, one fifty, limited?');
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([{ angleDegrees: 150 }]);
  });

  it('"no, fail" is asked how', () => {
    const bench = offered();
    bench.hear('no, fail');
    bench.untilAsked(PASSIVE);
    expect(bench.cues()).toContain('Limited, or lost?');
    bench.hear('lost');
    expect(findings(bench)).toMatchObject([{ result: 'lost', side: 'left', angleDegrees: 115 }]);
  });

  it('"yes, left" is a yes, and a yes with another value is offered anew', () => {
    const bench = offered();
    bench.hear('yes, left');
    expect(findings(bench)).toMatchObject([{ side: 'left', angleDegrees: 115 }]);
    const other = offered();
    other.hear('yes, one fifty');
    expect(findings(other)).toEqual([]);
    expect(offer(other)).toBe('Left, one fifty, limited?');
  });

  it('"no, left" where there are no sides is a no', () => {
    const bench = at(HINGE);
    halfHear(bench, 'limited');
    bench.untilAsked('confirm');
    bench.hear('no, left');
    bench.untilAsked(HINGE);
    expect(findings(bench)).toEqual([]);
  });

  it('a pain number is put right too', () => {
    const bench = at(HINGE);
    bench.hear('it hurts');
    bench.untilAsked('pain/how-much');
    halfHear(bench, 'three', undefined, 0.3);
    bench.untilAsked('confirm');
    bench.hear('no, two');
    expect(bench.logged('pain-number')).toMatchObject([{ pain: 2 }]);
  });

  it('"no, one fifty" when the end is asked about is a no', () => {
    const bench = offered();
    bench.hear('stop');
    bench.untilAsked('confirm');
    bench.hear('no, one fifty');
    expect(bench.isOver()).toBe(false);
    expect(findings(bench)).toEqual([]);
    bench.untilAsked(PASSIVE);
  });
});

describe('no fault, and no grade', () => {
  it('"no rib flare" is offered as a pass, and a yes makes it one', () => {
    const bench = at(PASSIVE);
    bench.hear('left one sixty, no rib flare');
    expect(offer(bench)).toBe('Left, one sixty, no fault: pass?');
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([{ side: 'left', result: 'held', angleDegrees: 160 }]);
  });

  it('declined, it is asked anew', () => {
    const bench = at(HINGE);
    bench.hear('back stayed flat');
    expect(offer(bench)).toBe('No fault: pass?');
    bench.hear('no');
    bench.untilAsked(HINGE);
    expect(findings(bench)).toEqual([]);
  });
});

describe('results of both sides in one breath', () => {
  it('are offered together, and a yes records each with its own side', () => {
    const bench = at(PASSIVE);
    bench.hear('left one fifteen limited, right one sixty pass');
    expect(findings(bench)).toEqual([]);
    expect(offer(bench)).toBe('Left, one fifteen, limited, and right, one sixty, pass?');
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([
      { side: 'left', result: 'short', angleDegrees: 115 },
      { side: 'right', result: 'held', angleDegrees: 160 },
    ]);
    bench.untilAsked();
    expect(bench.prompt()).toBe('check/overhead-active-lying');
  });

  it('that cannot be told apart are taken neither way: the open side is asked for', () => {
    const bench = at(PASSIVE);
    bench.hear('left one twenty right one forty');
    bench.untilAsked(PASSIVE);
    expect(bench.cues()).toContain('One side at a time: how is the left?');
    expect(findings(bench)).toEqual([]);
    bench.hear('one twenty limited');
    expect(findings(bench)).toMatchObject([{ side: 'left', angleDegrees: 120 }]);
  });

  it('pain of one side does not wait for the other', () => {
    const bench = at(PASSIVE);
    bench.hear('left pass, right hurts');
    expect(findings(bench)).toMatchObject([{ side: 'right', result: 'pain' }]);
  });

  it('2.3 at a set a side that was not just done is asked about', () => {
    const bench = at(PASSIVE);
    for (const words of ['pass', 'pass']) {
      bench.hear(words);
      bench.untilAsked();
    }
    bench.hear('ribs flared');
    bench.untilAsked();
    bench.hear('go to the half-kneeling press');
    bench.untilAsked('set/half-kneeling-press');
    const before = findings(bench).length;
    bench.hear('right clean');
    expect(findings(bench)).toHaveLength(before);
    expect(offer(bench)).toBe('Right, pass?');
    bench.hear('no, left');
    expect(findings(bench).at(-1)).toMatchObject({ side: 'left', result: 'held' });
  });

  it('a side said where there are none is asked about', () => {
    const bench = at(HINGE);
    bench.hear('left clean');
    expect(findings(bench)).toEqual([]);
    expect(offer(bench)).toBe('Left, pass?');
  });
});

describe('a pain number that is told late', () => {
  it.each(['four', 'it hurts, four', 'about a four'])(
    '"%s", begun before the number was asked, is that number',
    (text) => {
      const bench = at(HINGE);
      bench.hear('it hurts');
      bench.ear({ type: 'words', text, confidence: 1, prompt: HINGE });
      expect(bench.logged('pain-number')).toMatchObject([{ pain: 4 }]);
      expect(findings(bench)).toHaveLength(1);
      bench.untilAsked();
      expect(bench.prompt()).toBe('pain/kind');
    },
  );

  it('is merged while the pain is still being stored', () => {
    const bench = at(HINGE, { store: ({ type }) => (type === 'finding' ? 'silent' : null) });
    bench.hear('it hurts');
    expect(bench.state()).toContain('storing');
    bench.ear({ type: 'words', text: 'sharp pain four', confidence: 1, prompt: HINGE });
    bench.seconds(10);
    const { log } = bench.actor.getSnapshot().context;
    const told = log.filter(({ type }) => type === 'finding' || type.startsWith('pain-'));
    expect(told).toMatchObject([
      { type: 'finding', result: 'pain' },
      { type: 'pain-number', pain: 4 },
      { type: 'pain-kind', kind: 'sharp' },
    ]);
  });

  it('is no number where words to the athlete hold one', () => {
    const bench = at(HINGE);
    bench.hear('it hurts');
    bench.ear({ type: 'words', text: 'four more reps', confidence: 1, prompt: HINGE });
    expect(bench.logged('pain-number')).toEqual([]);
  });
});

describe('with a call word', () => {
  it('only what follows it counts, the record says so, and a reload goes on so', () => {
    const bench = at(PASSIVE, { callWord: 'sayso' });
    bench.hear('left one sixty pass');
    expect(findings(bench)).toEqual([]);
    expect(bench.logged('started')).toMatchObject([{ callWord: 'sayso' }]);
    const later = openBench({
      routine: 'overhead',
      log: bench.entries,
      atMilliseconds: STARTED + 900_000,
    });
    later.untilAsked(PASSIVE);
    later.hear('left one sixty pass');
    expect(findings(later)).toEqual([]);
    later.hear('sayso left one sixty pass');
    expect(findings(later)).toMatchObject([{ side: 'left', result: 'held' }]);
  });

  it('an offer is answered without it', () => {
    const bench = at(PASSIVE, { callWord: 'sayso' });
    halfHear(bench, 'sayso left one fifteen limited');
    bench.untilAsked('confirm');
    bench.hear('no, one fifty');
    expect(findings(bench)).toMatchObject([{ side: 'left', angleDegrees: 150 }]);
  });
});
