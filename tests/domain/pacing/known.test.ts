import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS, type Entry, type Fact } from '../../../src/domain/log';
import { asDecided, isLoadSet, knownOf } from '../../../src/domain/pacing/known';
import { changedWords, wordsOf } from '../../../src/domain/pacing/words';

const source = { by: 'voice', text: '', confidence: 1 } as const;
const logOf = (...facts: Fact[]): Entry[] =>
  facts.map((fact, index) => ({ ...fact, id: `a:b:${index}`, atSeconds: index }));

const started = (settings: object = DEFAULT_SETTINGS): Fact => ({
  type: 'started',
  routine: 'hinge',
  language: 'en',
  way: 'hands-on',
  startedAt: '2026-01-05T09:00:00Z',
  settings: settings as typeof DEFAULT_SETTINGS,
});
const asked = (prompt: string): Fact => ({ type: 'asked', prompt, side: null });
const set = (load: 'as-written' | 'lighter', drill = 'bell-hinge'): Fact => ({
  type: 'finding',
  prompt: `set/${drill}`,
  check: null,
  drill,
  load,
  side: null,
  result: 'held',
  faults: [],
  angleDegrees: null,
  tool: null,
  pain: null,
  source,
});
const decision = (rule: string): Fact => ({
  type: 'decision',
  rule,
  because: '',
  area: 'hinge',
  from: null,
  to: null,
  by: 'rules',
});

describe('how known a set-up is', () => {
  const BELL = 'set/bell-hinge';
  const BENCH = 'set/bench-hinge';

  it.each<[string, Fact[], string]>([
    ['nothing was done yet', [], 'new'],
    ['other work was done', [asked(BENCH), asked('check/hinge-unloaded')], 'new'],
    [
      'it was set up, and given up before its question',
      [decision('11.1'), set('as-written')],
      'new',
    ],
    ['it was done just now', [asked(BELL), set('as-written')], 'on'],
    ['pain was asked about since', [asked(BELL), asked('pain/kind'), asked('confirm')], 'on'],
    ['another drill came between', [asked(BELL), asked(BENCH)], 'back'],
    ['a check came between', [asked(BELL), asked('check/hinge-unloaded')], 'back'],
    [
      'there was a pause after it',
      [asked(BELL), { type: 'paused', source }, { type: 'resumed', source }],
      'back',
    ],
    ['it came back already', [asked(BELL), asked(BENCH), asked(BELL)], 'on'],
  ])('%s', (_, facts, known) => {
    expect(knownOf(logOf(started(), ...facts), BELL)).toBe(known);
  });

  it('a load is set where the drill was done last with it', () => {
    const log = logOf(started(), set('as-written'), set('lighter'), set('as-written', 'deadlift'));
    expect(isLoadSet(log, { drill: 'bell-hinge', load: 'lighter' })).toBe(true);
    expect(isLoadSet(log, { drill: 'bell-hinge', load: 'as-written' })).toBe(false);
    expect(isLoadSet(log, { drill: 'bench-hinge', load: 'as-written' })).toBe(false);
  });

  it('what came since the decision changes nothing; a declined stop decided nothing', () => {
    const before = logOf(started(), asked(BELL));
    const since = logOf(
      started(),
      asked(BELL),
      decision('2.2'),
      { type: 'words', words: 'tones', source },
      { type: 'resumed', source },
      decision('7.1'),
      decision('7.2'),
    );
    expect(asDecided(since)).toEqual(before);
    expect(asDecided(before)).toEqual(before);
  });
});

describe('how much is said', () => {
  it('is the setting, until more or less was asked for; of an old log the usual', () => {
    expect(wordsOf(logOf(started()))).toBe('normal');
    expect(wordsOf(logOf(started({ ...DEFAULT_SETTINGS, words: 'learning' })))).toBe('learning');
    expect(wordsOf(logOf(started({ passLineDegrees: 150 })))).toBe('normal');
    const asked = (words: 'tones' | 'learning'): Fact => ({ type: 'words', words, source });
    expect(wordsOf(logOf(started(), asked('tones'), asked('learning')))).toBe('learning');
  });

  it('goes by steps, and not beyond the last', () => {
    expect(changedWords('learning', 'fewer')).toBe('normal');
    expect(changedWords('normal', 'fewer')).toBe('tones');
    expect(changedWords('tones', 'fewer')).toBeNull();
    expect(changedWords('normal', 'more')).toBe('learning');
    expect(changedWords('learning', 'more')).toBeNull();
  });
});
