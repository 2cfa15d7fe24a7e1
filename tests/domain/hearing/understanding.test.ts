import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isPrompt, promptsOf } from '../../../src/domain/hearing/prompts';
import { understand } from '../../../src/domain/hearing/understanding';
import { hearingBook } from './book';

const book = hearingBook();
const prompts = promptsOf(book).map(({ prompt }) => prompt);
const hear = (
  at: string,
  text: string,
  confidence = 1,
  passLineDegrees = 155,
  painGoesOnUpTo = 2,
) => understand(book, at, text, { passLineDegrees, painGoesOnUpTo, confidence });
const hinge = 'check/hinge-unloaded';
const overhead = 'check/overhead-passive';

describe('a reading', () => {
  it('keeps the words heard, is sure of plain ones, and says little back', () => {
    expect(hear(overhead, 'Left, one forty, ribs flared.')).toEqual({
      heard: 'Left, one forty, ribs flared.',
      verdict: 'accept',
      reply: {
        command: null,
        target: null,
        side: 'left',
        result: 'lost',
        faults: ['ribs-flared'],
        angleDegrees: 140,
        pain: null,
        painKind: null,
        redFlag: null,
        same: false,
      },
      confidence: 1,
      readback: 'left, one forty, ribs',
    });
  });

  it('has neither reply nor readback where it is ignored', () => {
    expect(hear(hinge, 'beautiful')).toMatchObject({
      verdict: 'ignore',
      reply: null,
      readback: null,
    });
  });

  it.each([
    ['left pass', 'left, pass'],
    ['right one oh five limited', 'right, one oh five, limited'],
    ['both one hundred limited', 'both, one hundred, limited'],
    ['pain seven', 'pain seven'],
    ['no pain', 'no pain'],
    ['new pain', 'new pain'],
    ['fail', 'limited, or lost?'],
    ['left not a pass', 'left: limited, or lost?'],
    ['no rib flare', 'no fault'],
    ['left, ribs stayed down', 'left, no fault'],
    ['pass but the ribs flared', 'ribs, not a pass'],
    ['left one forty, clean, ribs flared', 'left, one forty, ribs, not a pass'],
    ['right one fifty pass', 'right, one fifty, pass, under the line'],
    ['chest pain', 'chest pain'],
    ['go back to the plate squat', 'go to the plate-reach squat'],
  ])('"%s" is read back as "%s"', (text, readback) => {
    expect(hear(overhead, text).readback).toBe(readback);
  });

  it('is less sure of what has to be asked about, and of a near-homophone', () => {
    expect(hear(hinge, 'pass but knees forward').confidence).toBeLessThan(0.7);
    expect(hear(hinge, 'past').confidence).toBeLessThan(1);
  });

  it('takes a pass only from the pass line on', () => {
    expect(hear(overhead, 'one fifty pass', 1, 150).verdict).toBe('accept');
    expect(hear(overhead, 'one forty nine pass', 1, 150).verdict).toBe('confirm');
  });

  it('asks about a fault that the check does not have', () => {
    expect(hear('check/squat-bodyweight', 'elbows dropped').verdict).toBe('confirm');
    expect(hear('check/squat-front-rack', 'elbows dropped').verdict).toBe('accept');
    expect(hear('set/goblet-squat', 'elbows dropped').verdict).toBe('accept');
  });

  it.each([
    ['knees and back rounded', 'confirm'],
    ['knees and the back rounded', 'confirm'],
    ['knees and shins forward', 'accept'],
    ['back rounded and knees forward', 'accept'],
    ['knees and back good, shins tilted', 'accept'],
  ])('"%s": a part that was listed beside a fault is not lost', (text, verdict) => {
    expect(hear(hinge, text).verdict).toBe(verdict);
  });

  it('refuses a prompt that is not in the book', () => {
    expect(() => hear('check/nothing', 'pass')).toThrow('no prompt "check/nothing"');
    expect(() => hear('set/constructor', 'pass')).toThrow('no prompt');
    expect(isPrompt(book, hinge)).toBe(true);
    expect(isPrompt(book, 'toString')).toBe(false);
  });
});

describe('what a reading leaves open is asked in its own words', () => {
  it.each([
    [overhead, 'fail', 'limited-or-lost', null],
    [overhead, 'almost on the left', 'limited-or-lost', null],
    [overhead, 'left one forty, not a pass', 'limited-or-lost', null],
    [overhead, 'left one forty', 'grade', null],
    [overhead, 'one fifty five degrees', 'grade', null],
    [overhead, 'no rib flare', 'pass', null],
    [hinge, 'back stayed flat', 'pass', null],
    [overhead, 'not limited', 'pass', null],
    [hinge, 'good', 'pass', 'held'],
    [hinge, 'no faults', 'pass', 'held'],
  ] as const)('at %s "%s" asks %s', (at, text, asks, result) => {
    expect(hear(at, text)).toMatchObject({ verdict: 'confirm', asks, reply: { result } });
  });

  it.each([
    [overhead, 'left pass'],
    [overhead, 'fail, ribs flared'],
    [overhead, 'pass but the ribs flared'],
    [hinge, 'pain'],
    ['idle', 'stop'],
  ])('at %s "%s" leaves nothing open', (at, text) => {
    expect(hear(at, text)).not.toHaveProperty('asks');
  });

  it.each(['good set', 'good job', 'good, keep it there', 'good stretch'])(
    '"%s" is praise and asks nothing',
    (text) => {
      expect(hear(hinge, text).verdict).toBe('ignore');
    },
  );

  it('"good" asks nothing while work goes on', () => {
    expect(hear('idle', 'good').verdict).toBe('ignore');
  });
});

describe('what is not what it seems', () => {
  it.each([
    ['pain/how-much', 'minus two', 'confirm', { result: 'pain', pain: null }],
    [overhead, 'minus forty degrees, limited', 'confirm', { angleDegrees: -40 }],
    [overhead, 'one forty, no, one fifty, pass', 'confirm', { angleDegrees: 150 }],
    ['set/bell-hinge', 'left clean', 'confirm', { side: 'left', result: 'held' }],
    ['set/bell-hinge', 'both sides clean', 'accept', { side: 'both' }],
    ['check/squat-bodyweight', 'left knee caved in', 'accept', { side: 'left' }],
    ['check/squat-bodyweight', 'weight goes right back on the heels', 'accept', { side: null }],
    [overhead, 'right clear, left ribs flared', 'confirm', { side: 'right', result: 'held' }],
    [overhead, 'right, left one forty limited', 'accept', { side: 'left' }],
    [hinge, 'clean, but a two in the hamstring', 'accept', { result: 'held', pain: 2 }],
    [hinge, 'it hurts, four', 'accept', { result: 'pain', pain: 4 }],
    [hinge, 'sharp pain four', 'accept', { pain: 4, painKind: 'sharp' }],
  ])('at %s "%s" is to %s', (at, text, verdict, reply) => {
    expect(hear(at, text)).toMatchObject({ verdict, reply });
  });

  it.each(['right side first', 'do the right side first', 'left one first'])(
    '"%s" is coaching talk: a result for that side will say so itself',
    (text) => {
      for (const at of [overhead, 'set/half-kneeling-press', 'idle'])
        expect(hear(at, text).verdict).toBe('ignore');
    },
  );
});

describe('how surely it was heard', () => {
  it.each([
    ['knees forward', 0.5, 'accept'],
    ['knees forward', 0.49, 'confirm'],
    ['knees forward', 0.25, 'confirm'],
    ['knees forward', 0.24, 'ignore'],
    ['next', 0.4, 'confirm'],
    ['stop', 0.2, 'accept'],
    ['pause', 0.2, 'accept'],
    ['stop', 0.19, 'ignore'],
    ['pain seven', 0.4, 'accept'],
    ['pain seven', 0.2, 'confirm'],
    ['chest pain', 0.2, 'confirm'],
    ['chest pain', 0.4, 'accept'],
  ])('"%s" at %d is %s', (text, confidence, verdict) => {
    expect(hear(hinge, text, confidence).verdict).toBe(verdict);
  });
});

describe('what may hurt somebody', () => {
  const flags = Object.entries(book.vocabulary.redFlags);

  it.each(prompts)('stop, pain and every red flag are heard at %s', (prompt) => {
    expect(hear(prompt, 'stop').reply?.command).toBe('stop');
    expect(hear(prompt, 'it hurts')).toMatchObject({
      verdict: 'accept',
      reply: { result: 'pain' },
    });
    for (const [redFlag, { say }] of flags) {
      const text = say[0]!.replace(/[()?]/g, '');
      expect(hear(prompt, text)).toMatchObject({ verdict: 'accept', reply: { redFlag } });
    }
  });

  it.each(["don't stop", 'no dizziness', 'are you dizzy?', 'tell me if it hurts', 'never stop'])(
    '"%s" is none',
    (text) => {
      expect(hear('idle', text).verdict).toBe('ignore');
    },
  );

  it.each(['stop where it hurts', 'stop when it pinches', 'this might hurt', 'no pain no gain'])(
    '"%s" is talk',
    (text) => {
      expect(hear(hinge, text).verdict).toBe('ignore');
    },
  );

  it.each(['I need to stop', 'we have to stop', 'woah stop', 'stop, stop, stop'])(
    '"%s" is a stop',
    (text) => {
      expect(hear('idle', text)).toMatchObject({ verdict: 'accept', reply: { command: 'stop' } });
    },
  );

  it('keeps the pain that is said with a stop or a result', () => {
    expect(hear('idle', 'stop it hurts').reply).toMatchObject({ command: 'stop', result: 'pain' });
    expect(hear(hinge, 'stop, pain six').reply).toMatchObject({ command: 'stop', pain: 6 });
    expect(hear(hinge, 'limited, pain two').reply).toMatchObject({ result: 'short', pain: 2 });
    expect(hear(hinge, 'limited, pain three').reply).toMatchObject({ result: 'pain', pain: 3 });
    expect(hear(hinge, 'limited and it hurts').reply).toMatchObject({ result: 'pain', pain: null });
  });
});

describe('for any words', () => {
  const words = fc.constantFrom(
    ...[
      'knees',
      'forward',
      'no',
      'not',
      'left',
      'right',
      'one',
      'forty',
      'pass',
      'limited',
      'pain',
    ],
    ...[
      'and',
      'or',
      ',',
      'back',
      'ribs',
      'flared',
      'stop',
      'keep',
      'your',
      'go',
      'to',
      '?',
      'zog',
      '7/10',
    ],
  );
  const talk = fc.array(words, { maxLength: 12 }).map((list) => list.join(' '));
  const said = fc.oneof(talk, fc.string(), fc.string({ unit: 'binary' }));

  it('an answer is given, whole and within its bounds', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...prompts),
        said,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (at, text, confidence) => {
          const { heard, verdict, reply, readback, confidence: sure } = hear(at, text, confidence);
          expect(heard).toBe(text);
          expect(reply === null).toBe(verdict === 'ignore');
          expect(readback === null).toBe(verdict === 'ignore');
          expect(sure).toBeGreaterThanOrEqual(0);
          expect(sure).toBeLessThanOrEqual(confidence);
          if (reply?.pain != null) expect(reply.pain).toBeLessThanOrEqual(10);
        },
      ),
      { numRuns: 1500, seed: 5 },
    );
  });

  it('a flood of words is talk, and costs no time', () => {
    const began = process.cpuUsage();
    for (const text of [
      'no '.repeat(55),
      'no '.repeat(5000),
      `${'please '.repeat(50)}x`,
      'one '.repeat(60),
    ])
      expect(hear('confirm', `${text}zog`).verdict).toBe('ignore');
    // What it takes of the processor, however busy that is.
    expect(process.cpuUsage(began).user).toBeLessThan(1e6);
  });

  it('a fault that was denied is never recorded, and a told one is', () => {
    const faults = [
      ['knees', 'come forward', 'came forward', 'knees-forward'],
      ['back', 'round', 'rounded', 'back-rounded'],
      ['toes', 'lift', 'lifted', 'toes-up'],
      ['bar', 'drift away', 'drifted away', 'bar-away'],
      ['hips', 'shoot up', 'shot up', 'hips-first'],
    ] as const;
    const negator = fc.constantFrom("didn't", 'did not', 'never', "doesn't");
    const owner = fc.constantFrom('', 'the ', 'his ', 'her ');
    fc.assert(
      fc.property(
        fc.constantFrom(...faults),
        negator,
        owner,
        ([part, now, then, fault], no, whose) => {
          expect(hear(hinge, `${whose}${part} ${no} ${now}, pass`).reply).toMatchObject({
            result: 'held',
            faults: [],
          });
          expect(hear(hinge, `${whose}${part} ${then}`).reply).toMatchObject({
            result: 'lost',
            faults: [fault],
          });
        },
      ),
    );
  });

  it('a fault told as an order, a question or a warning is never acted on', () => {
    const opener = fc.constantFrom(
      "don't let the",
      'keep your',
      'did your',
      'are the',
      'watch your',
      'can you feel your',
    );
    const fault = fc.constantFrom(
      'knees forward',
      'back rounded',
      'toes up',
      'bar away',
      'shins tilted',
    );
    fc.assert(
      fc.property(opener, fault, (before, after) => {
        expect(hear(hinge, `${before} ${after}`).verdict).toBe('ignore');
      }),
    );
  });
});

describe('the prompts of a book', () => {
  it('say what each expects', () => {
    const expects = Object.fromEntries(promptsOf(book).map((each) => [each.prompt, each.expects]));
    expect(expects[hinge]).toEqual(
      expect.arrayContaining(['held', 'knees-forward', 'pain 0 to 10', 'stop']),
    );
    expect(expects[hinge]).not.toContain('ribs-flared');
    expect(expects[hinge]).not.toContain('yes');
    expect(expects[overhead]).toEqual(expect.arrayContaining(['side', 'angle', 'ribs-flared']));
    expect(expects.confirm).toEqual(expect.arrayContaining(['yes', 'no', 'resume']));
    expect(expects['pain/how-much']).toContain('pain 0 to 10');
    expect(expects.idle).toContain('chest-pain');
  });
});
