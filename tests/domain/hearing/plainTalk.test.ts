import { describe, expect, it } from 'vitest';
import { NO_REPLY, type Reply } from '../../../src/domain/hearing/reply';
import { understand } from '../../../src/domain/hearing/understanding';
import { hearingBook } from './book';

const book = hearingBook();
const hear = (at: string, text: string) =>
  understand(book, at, text, { passLineDegrees: 155, painGoesOnUpTo: 2, confidence: 1 });
const passive = 'check/overhead-passive';
const lying = 'check/overhead-active-lying';
const squat = 'check/squat-bodyweight';
const hinge = 'check/hinge-unloaded';

const accepted = (at: string, text: string, reply: Partial<Reply>) => {
  const { verdict, reply: read } = hear(at, text);
  expect({ verdict, ...read }).toEqual({ verdict: 'accept', ...NO_REPLY, ...reply });
};

describe('what held of one part', () => {
  it.each<[string, Partial<Reply>]>([
    ['pressure held, arms came up short', { result: 'short', faults: ['arms-short'] }],
    ["couldn't hold the elbows straight", { result: 'lost', faults: ['elbows-bent'] }],
    ['elbows held, ribs flared', { result: 'lost', faults: ['ribs-flared'] }],
    ['ribs clean, pressure clean, pass', { result: 'held' }],
  ])('grades no more than that: %s', (text, reply) => accepted(lying, text, reply));

  it('is asked about where it is all that was said', () => {
    expect(hear(lying, 'ribs held').verdict).toBe('confirm');
  });
});

describe('a "no" before a part', () => {
  it.each(['no knees forward, no rounding, pass', 'no toes, no knees, clean'])(
    'denies where a pass follows: %s',
    (text) => accepted(hinge, text, { result: 'held' }),
  );

  it('is asked about where none does', () => {
    expect(hear(hinge, 'no knees forward').verdict).toBe('confirm');
  });
});

describe('"almost" and its like', () => {
  it('leave it to the word after them which failure it was', () =>
    accepted(lying, 'not quite there, short', { result: 'short' }));

  it('are a contradiction beside a pass', () => {
    expect(hear(lying, 'almost, pass').verdict).toBe('confirm');
  });
});

describe('a verb', () => {
  it.each<[string, Partial<Reply>]>([
    ["he's folding over at the bottom", { result: 'lost', faults: ['chest-dropped'] }],
    ['knees drift in', { result: 'lost', faults: ['knees-caved'] }],
  ])('is known in forms that are not written down: %s', (text, reply) =>
    accepted(squat, text, reply),
  );

  it('orders where it begins a clause in its bare form', () => {
    expect(hear(hinge, 'lean back against the wall').verdict).toBe('ignore');
    expect(hear(squat, 'fold over, now drift in').verdict).toBe('ignore');
  });
});

describe('a result that is of something else', () => {
  it.each([
    "there's a clean towel over there on the left",
    "there's a short bar over on the right",
    'I was right, he did pass',
    "that's a short walk from here",
  ])('grades nothing: %s', (text) => expect(hear(passive, text).verdict).toBe('ignore'));
});

describe('pain', () => {
  it.each<[string, string, Partial<Reply>]>([
    [passive, 'that one hurts', { result: 'pain' }],
    [squat, 'his knee hurts, left one', { side: 'left', result: 'pain' }],
    [squat, 'sharp pain on the inside of the knee', { result: 'pain', painKind: 'sharp' }],
    [squat, "it's achy in my left knee, like a three", { side: 'left', result: 'pain', pain: 3 }],
    ['pain/how-much', "it's about a four right now", { result: 'pain', pain: 4 }],
    ['pain/how-much', 'zero out of ten', { pain: 0 }],
    ['pain/kind', 'known, a two', { result: 'pain', pain: 2, painKind: 'known' }],
    ['pain/kind', 'the usual one', { painKind: 'known' }],
  ])('at %s: %s', (at, text, reply) => accepted(at, text, reply));
});

it('waits for nobody who thinks that he is about to faint, and asks about last summer', () => {
  accepted('idle', "I think I'm going to pass out", { redFlag: 'faint-dizzy' });
  accepted('idle', "my heart's pounding and my chest hurts", { redFlag: 'chest-pain' });
  expect(hear('idle', 'my back gave out last summer').verdict).toBe('confirm');
});

it('takes a fault of the next area for the result alone where its own has none like it', () =>
  accepted(passive, 'right arm goes to one forty and stops, limited', {
    side: 'right',
    result: 'short',
    angleDegrees: 140,
  }));
