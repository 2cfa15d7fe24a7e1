import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS, type Words } from '../../src/domain/log';
import { textOf } from '../../src/domain/script';
import { book, openBench, type Bench, type BenchOptions } from './bench';

const CHECK = 'check/hinge-unloaded';
const SET = 'set/bell-hinge';
const line = (key: string) => book.lines[key];
const bell = book.drills['bell-hinge']!;
const SET_UP = [...bell.setUp, ...bell.setUpAgain].map(textOf);

const open = (words: Words, more: BenchOptions = {}): Bench =>
  openBench({ settings: { ...DEFAULT_SETTINGS, words }, ...more });

/** At the question of the first set, which a fault in the check led to. */
function atSet(words: Words): Bench {
  const bench = open(words);
  bench.untilAsked(CHECK);
  bench.hear('knees came forward');
  bench.untilAsked(SET);
  return bench;
}

/** What is said from a reply on until the next question opens. */
function said(bench: Bench, reply: string, prompt?: string): string[] {
  const from = bench.cues().length;
  bench.hear(reply);
  bench.untilAsked(prompt);
  return bench.cues().slice(from);
}
const setUpIn = (cues: string[]): string[] => cues.filter((cue) => SET_UP.includes(cue));

describe('how much is said of a second set', () => {
  it('learning: the why whole, and the short set-up', () => {
    const cues = said(atSet('learning'), 'clean set');
    expect(cues).toContain(line('because.one-more'));
    expect(setUpIn(cues)).toEqual(bell.setUpAgain.map(textOf));
  });

  it('normal: which set it is, and what to take', () => {
    const cues = said(atSet('normal'), 'clean set');
    expect(cues.slice(0, 3)).toEqual(['Pass.', 'Set two.', bell.steps[0]?.text]);
  });

  it('normal: after a fault its fix, and nothing that was known', () => {
    const cues = said(atSet('normal'), 'knees forward');
    const fix = bell.fixes.find(({ fault }) => fault === 'knees-forward')?.cue;
    expect(cues.slice(0, 4)).toEqual(['Knees forward.', 'Set two.', fix, bell.steps[0]?.text]);
  });

  it('tones: after a fault its fix alone, three tones, the counts, and that it is put down', () => {
    const bench = atSet('tones');
    const from = bench.tones.length;
    const counted = bench.counts.length;
    const cues = said(bench, 'knees forward');
    const fix = bell.fixes.find(({ fault }) => fault === 'knees-forward')?.cue;
    const counts = ['one', 'two', 'three', 'four', 'five', 'six'];
    expect(cues).toEqual(['Knees forward.', fix, ...counts, 'Put the bell down.', bell.ask]);
    expect(bench.counts.slice(counted).map(({ text }) => text)).toEqual([
      ...[null, null, null],
      ...counts,
    ]);
    expect(bench.tones.slice(from)).not.toContain('not-understood');
  });

  it('a load that is kept is not told again, one that changes is', () => {
    const bench = atSet('normal');
    said(bench, 'knees forward');
    expect(said(bench, 'knees forward')).toContain(bell.easier?.cue);
    expect(said(bench, 'clean set')).not.toContain(bell.easier?.cue);
  });
});

describe('tones', () => {
  it('says the cautions the first time, and what each new thing is called', () => {
    const bench = open('tones');
    bench.untilAsked(CHECK);
    const cues = bench.cues();
    expect(cues.slice(0, 2)).toEqual([line('say.caution'), 'The unloaded hinge.']);
    expect(cues).not.toContain(line('say.welcome'));
    const next = said(bench, 'knees came forward', SET);
    expect(next.slice(0, 3)).toEqual(['Knees forward.', 'The bell hinge.', bell.caution]);
    expect(setUpIn(next)).toEqual([]);
  });

  it('asks about pain, says what follows from it, and asks whether to end', () => {
    const bench = atSet('tones');
    expect(said(bench, 'that hurts')).toContain(line('ask.pain-number'));
    expect(said(bench, 'seven').join(' ')).toMatch(/licensed professional decides/);
    const other = atSet('tones');
    expect(said(other, 'stop')).toContain(line('confirm.end'));
    other.hear('yes');
    other.seconds(60);
    expect(other.cues()).toContain(line('say.stopped'));
  });

  it('says to get help on a warning sign, and offers what is unsure', () => {
    const bench = atSet('tones');
    expect(said(bench, 'pass but knees forward')).toContain('Knees forward, not a pass?');
    bench.hear('chest pain');
    bench.seconds(10);
    expect(bench.cues()).toContain(line('say.red-flag'));
  });
});

describe('fewer words, more words', () => {
  it('is told and logged, and holds from the next one on: what goes on is not shortened', () => {
    const bench = open('normal');
    bench.untilAsked(CHECK);
    bench.hear('knees came forward');
    bench.seconds(14);
    expect(bench.of('step').at(-1)?.prompt).toBe(SET);
    const cues = said(bench, 'fewer words', SET);
    expect(cues[0]).toBe(line('say.words-tones'));
    expect(setUpIn(cues).length).toBeGreaterThan(0);
    expect(bench.logged('words')).toMatchObject([{ words: 'tones', source: { by: 'voice' } }]);
    expect(setUpIn(said(bench, 'clean set'))).toEqual([]);
    expect(bench.cues()).not.toContain('Set two.');
  });

  it('goes on so after a reload, with the same question and the same decision', () => {
    const bench = atSet('normal');
    expect(said(bench, 'fewer words')).toEqual([line('say.words-tones'), bell.ask]);
    const decisions = bench.logged('decision').length;
    const later = openBench({ log: bench.entries, atMilliseconds: bench.clock.now() + 60_000 });
    later.untilAsked();
    expect(later.prompt()).toBe(SET);
    expect(later.logged('decision')).toHaveLength(0);
    expect(bench.logged('decision')).toHaveLength(decisions);
    expect(said(later, 'clean set').slice(0, 2)).toEqual(['Pass.', 'one']);
  });

  it('more words comes back to what was, and the ends of the scale are said', () => {
    const bench = atSet('normal');
    said(bench, 'fewer words');
    expect(said(bench, 'fewer words')[0]).toBe(line('say.words-fewest'));
    expect(said(bench, 'more words')[0]).toBe(line('say.words-normal'));
    expect(said(bench, 'more words')[0]).toBe(line('say.words-learning'));
    expect(said(bench, 'more words')[0]).toBe(line('say.words-most'));
    expect(bench.logged('words').map(({ words }) => words)).toEqual([
      'tones',
      'normal',
      'learning',
    ]);
  });

  it('a set that was paused goes on with its count, whatever was said of words meanwhile', () => {
    const bench = atSet('normal');
    bench.hear('clean set');
    bench.seconds(30);
    bench.hear('fewer words');
    bench.seconds(12);
    const count = bench.counts.at(-1)?.text;
    const counted = bench.counts.length;
    bench.hear('pause');
    bench.seconds(30);
    bench.hear('resume');
    bench.untilAsked(SET);
    const counts = bench.counts.slice(counted).map(({ text }) => text);
    expect(counts[0]).toBe(count);
    expect(counts.at(-1)).toBe('six');
  });

  it('is neither taken back by undo nor in the way of it', () => {
    const bench = atSet('normal');
    said(bench, 'clean set');
    said(bench, 'fewer words');
    said(bench, 'undo');
    expect(bench.logged('undone')).toHaveLength(1);
    expect(bench.logged('undone')[0]?.entry).toBe(bench.logged('finding').at(-1)?.id);
  });
});
