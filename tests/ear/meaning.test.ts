import { expect, test } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { grammarOf } from '../../src/domain/hearing/building';
import type { Grammar } from '../../src/domain/hearing/grammar';
import { followingOf, meaningOf } from '../../src/ear/meaning';
import { phrases } from './grammars';

const book = loadBook('scripts-cues', 'en');
const idle = grammarOf(book, 'idle');
const hinge = grammarOf(book, 'check/hinge-unloaded');

test.each([
  ['left one sixty limited', 'left one hundred and sixty limited', idle],
  ['left one sixty five limited', 'left one six five short', idle],
  ['knees forward', 'knees came forward', hinge],
  ['shins not vertical and knees forward', 'knees forward shins not vertical', hinge],
])('"%s" and "%s" mean the same', (one, other, grammar) => {
  expect(meaningOf(grammar, one)).toBe(meaningOf(grammar, other));
});

test.each([
  ['left one sixty limited', 'left one sixteen limited', idle],
  ['left clear', 'right clear', idle],
  ['pass', 'lost', hinge],
  ['knees forward', 'knees locked', hinge],
  ['stop', 'skip', hinge],
])('"%s" and "%s" do not', (one, other, grammar) => {
  expect(meaningOf(grammar, one)).not.toBe(meaningOf(grammar, other));
});

test('where a grammar tells no meanings the words are the meaning', () => {
  const grammar = phrases('confirm', ['yes', 'yeah']);
  expect(meaningOf(grammar, 'yes')).toBe('yes');
  expect(meaningOf(grammar, 'yeah')).toBe('yeah');
});

test.each([
  ['undo', 'nothing', hinge],
  ['chest hurts', 'nothing', hinge],
  // "Pass set" means the same; only pain would be new.
  ['pass', 'little', hinge],
  // "Next athlete" is one phrase, said without a pause in it.
  ['next', 'little', hinge],
  ['sharp pain', 'little', hinge],
  ['sharp pain seven', 'nothing', hinge],
  ['knees forward', 'more', hinge],
  ['limited', 'more', hinge],
  ['left one sixty limited', 'more', idle],
] as const)('after "%s" may follow: %s', (text, following, grammar) => {
  expect(followingOf(grammar, text)).toBe(following);
});

test('where a grammar tells no meanings every word that follows is new', () => {
  const grammar = phrases('confirm', ['pain', 'pain seven']);
  expect(followingOf(grammar, 'pain')).toBe('little');
  expect(followingOf(grammar, 'pain seven')).toBe('nothing');
});

test('ways that part and meet a hundred times are each followed once: nobody waits', () => {
  const steps = Array.from({ length: 100 }, (_, state) => state);
  const arcs = steps.flatMap((state) =>
    ['one', 'two', 'three'].map((words) => ({
      from: state,
      to: state + 1,
      words,
      means: 'the same',
    })),
  );
  const many: Grammar = { prompt: 'confirm', states: 101, finals: [1, 100], arcs };
  expect(followingOf(many, 'one')).toBe('nothing');
});
