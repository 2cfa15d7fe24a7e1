import { describe, expect, it } from 'vitest';
import { understand } from '../../../src/domain/hearing/understanding';
import { hearingBook } from './book';

const book = hearingBook();
const hear = (at: string, text: string) =>
  understand(book, at, text, { passLineDegrees: 155, painGoesOnUpTo: 2, confidence: 1 });

describe('a command with small words anywhere in it', () => {
  it.each([
    ['could we just pause here a moment', 'pause'],
    ['give us another thirty seconds', 'pause'],
    ['can you take a little bit of weight off that bar for me', 'lighter'],
    ['put another plate on there please', 'heavier'],
    ["sorry, I didn't quite catch the last part", 'repeat'],
    ['how much longer have we got on this', 'time-left'],
    ["let's get the next athlete up", 'next-person'],
    ['I can hardly hear you from over here', 'louder'],
    ['we will give this one a miss, his wrists are sore from work', null],
  ])('%s', (text, command) => {
    expect(hear('idle', text).reply?.command ?? null).toBe(command);
  });

  it('acts beside what is not meant for Sayso, but not beside words to the athlete', () => {
    expect(hear('set/bell-hinge', "can't tell, do another set")).toMatchObject({
      verdict: 'accept',
      reply: { command: 'again' },
    });
    expect(hear('idle', 'keep your back flat, go a bit slower').verdict).toBe('ignore');
  });

  it('is looked for in no time, whatever is said', () => {
    expect(hear('idle', `${'can we now '.repeat(19)}well`).verdict).toBe('ignore');
  });

  it.each([
    "don't pause at the bottom",
    "stop me if you've heard this one",
    'go down slower than that',
    'we stopped at the petrol station on the way back',
    'somebody left the volume up at home',
    'he skipped leg day, you can tell',
  ])('is none in other talk: %s', (text) => {
    expect(hear('idle', text).verdict).toBe('ignore');
  });
});

describe('a red flag in words of one’s own', () => {
  it.each([
    ['he does not feel his foot', 'numb-tingling'],
    ['my fingers have gone all pins and needles', 'numb-tingling'],
    ["she's got no feeling at all in that leg", 'numb-tingling'],
    ['there is a really heavy pressure across his chest', 'chest-pain'],
    ["his heart's racing", 'chest-pain'],
    ['the whole room is turning', 'faint-dizzy'],
    ["she's gone pale and clammy", 'faint-dizzy'],
    ["he's having trouble getting enough air in", 'breathless'],
    ['her kneecap slipped out on her', 'gave-way'],
    ["he can't control his bladder", 'back-numb'],
  ])('%s', (text, redFlag) => {
    expect(hear('idle', text)).toMatchObject({ verdict: 'accept', reply: { redFlag, faults: [] } });
  });

  it.each(['I nearly fainted when I saw the bill', 'I felt dizzy at the fair last week'])(
    'is never acted on where it is of something else or of another day: %s',
    (text) => {
      expect(hear('idle', text).verdict).not.toBe('accept');
    },
  );

  it('is none in a saying', () => {
    expect(hear('idle', 'the company reached dizzy heights').verdict).toBe('ignore');
    for (const talk of [
      'feet spaced out',
      'not a full breath',
      'no water',
      'he could drop the bar',
    ])
      expect(hear('idle', talk).verdict, talk).toBe('ignore');
    expect(hear('idle', 'a faint smell of rubber in here').verdict).toBe('ignore');
  });

  it('is none where it is denied', () => {
    expect(hear('idle', 'no numbness in the hand, no dizziness').reply?.redFlag ?? null).toBeNull();
  });
});

describe('a fault in words that a red flag has too', () => {
  it.each([
    ['check/hinge-bar', 'the back was dead flat'],
    ['idle', 'stopped dead at the bottom'],
    ['set/front-squat', 'too much weight on his chest'],
    ['set/front-squat', 'the chest gave way'],
  ])('is no red flag: %s %s', (at, text) => {
    expect(hear(at, text).reply?.redFlag ?? null).toBeNull();
  });

  it('is the fault of the part it names', () => {
    expect(hear('set/front-squat', 'chest gave way').reply?.faults).toEqual(['chest-dropped']);
  });

  it.each([
    ['his groin is dead', 'back-numb'],
    ['it gave way', 'gave-way'],
    ['his elbow gave way', 'gave-way'],
    ['a weight in the chest, and it hurts in the chest', 'chest-pain'],
  ])('leaves a red flag what it is: %s', (text, redFlag) => {
    expect(hear('idle', text).reply).toMatchObject({ redFlag });
  });
});

describe('two things in one breath', () => {
  it.each(['can we not skip this one', 'could we not go heavier', 'left, skip it'])(
    'are no command where one of them speaks against it: %s',
    (text) => {
      expect(hear('check/overhead-passive', text).reply?.command ?? null).toBeNull();
    },
  );

  it.each(['correct it', 'correct that', 'no, correct it', 'no correct it'])(
    'are a no to an offer: %s',
    (text) => {
      expect(hear('confirm', text)).toMatchObject({ verdict: 'accept', reply: { command: 'no' } });
    },
  );

  it('are a yes to an offer where they only agree', () => {
    for (const text of ['correct', 'correct, sir', "that's correct"])
      expect(hear('confirm', text).reply?.command, text).toBe('yes');
  });

  it.each(['go heavier, hold on', 'go heavier, wait', 'go heavier, no wait'])(
    'pause where one of them does: %s',
    (text) => {
      expect(hear('set/bell-hinge', text)).toMatchObject({
        verdict: 'accept',
        reply: { command: 'pause' },
      });
    },
  );

  it('act on neither where the second takes the first back', () => {
    expect(hear('idle', 'go heavier, not yet').verdict).not.toBe('accept');
  });

  it('leave pain what it is beside a command', () => {
    expect(hear('check/overhead-passive', 'sharp pain at one forty, go lighter')).toMatchObject({
      verdict: 'accept',
      reply: { result: 'pain', painKind: 'sharp', angleDegrees: 140 },
    });
  });

  it.each(['clean, do another set', 'lost, go back one'])(
    'are asked about where one is a result: %s',
    (text) => {
      expect(hear('set/bell-hinge', text).verdict).toBe('confirm');
    },
  );

  it('are one where a result only moves on', () => {
    expect(hear('set/bell-hinge', 'clean, move on').verdict).toBe('accept');
  });
});

describe('a reply in passing words', () => {
  it.each([
    'perfect technique, pass',
    "the back's technically clean",
    "he's clear as a bell, pass",
  ])('is still the reply: %s', (text) => {
    expect(hear('check/hinge-bar', text)).toMatchObject({
      verdict: 'accept',
      reply: { result: 'held' },
    });
  });

  it.each([
    ['check/overhead-passive', 'ribs', ['ribs-flared']],
    ['set/front-squat', 'the heels and the knees', ['heels-up', 'knees-caved']],
    ['check/hinge-unloaded', "back was flat but the shins weren't", ['shins-tilted']],
  ])('is asked about where it only names a part: %s %s', (at, text, faults) => {
    expect(hear(at, text)).toMatchObject({ verdict: 'confirm', reply: { result: 'lost', faults } });
  });

  it.each(['hips, hips, hips', "his brother's knees cave something awful"])(
    'is none where it spurs somebody on or tells of others: %s',
    (text) => {
      expect(hear('check/hinge-unloaded', text).verdict).toBe('ignore');
    },
  );

  it.each([
    ['check/squat-bodyweight', "roundin' at the bottom", { faults: ['back-rounded'] }],
    ['check/squat-bodyweight', 'bum tucks right under', { faults: ['back-rounded'], side: null }],
    ['check/squat-bodyweight', 'heels popped right up', { faults: ['heels-up'], side: null }],
    ['check/squat-bodyweight', 'shifted right', { faults: ['weight-shifted'], side: 'right' }],
    ['check/overhead-active-standing', "she's doing it all with the low back", { result: 'lost' }],
    ['check/overhead-passive', 'left, not the right, limited', { side: 'left', result: 'short' }],
    ['confirm', 'no, one sixty not one sixteen', { command: 'no', angleDegrees: 160 }],
  ])('is read as it is meant: %s %s', (at, text, reply) => {
    expect(hear(at, text)).toMatchObject({ verdict: 'accept', reply });
  });

  it('is asked about where only its end, a grade, is understood', () => {
    expect(hear('set/standing-press', 'ribs first then the bar, so lost')).toMatchObject({
      verdict: 'confirm',
      reply: { result: 'lost' },
    });
  });

  it.each([
    ["'no pain'", { pain: 0 }],
    ["go again'", { command: 'again' }],
  ])('is read within quotes: %s', (text, reply) => {
    expect(hear('idle', text)).toMatchObject({ verdict: 'accept', reply });
  });

  it('asks nothing about no pain while work goes on', () => {
    expect(hear('idle', 'no pain')).toMatchObject({ verdict: 'accept', reply: { pain: 0 } });
    expect(hear('idle', 'no pain no gain').verdict).toBe('ignore');
  });
});
