import { describe, expect, it } from 'vitest';
import table from '../../../src/cues/durations.json';
import { loadBook } from '../../../src/cues/fromFolder';
import { secondsOf } from '../../../src/domain/pacing/duration';
import type { PacedLine } from '../../../src/domain/pacing/line';
import { planStep, type Asked } from '../../../src/domain/pacing/oneStep';
import { textOf } from '../../../src/domain/script';
import { checkStep, setStep } from './readable';

const book = loadBook('scripts-cues', 'en');
const drills = Object.values(book.drills);
const checks = Object.values(book.checks);
const measured = (text: string) => secondsOf(table, text);
const said = (lines: PacedLine[]) => lines.flatMap(({ text }) => text ?? []);
const planSet = (id: string, asked: Partial<Asked>, more = {}) =>
  planStep(book, setStep(id, more), measured, asked);
const planCheck = (id: string, asked: Partial<Asked>) =>
  planStep(book, checkStep(id), measured, asked);
/** Seconds until the first count. */
const untilWork = (lines: PacedLine[]) =>
  lines.find(({ beats }) => beats.some(({ text }) => text !== null))?.atSeconds ?? 0;
const waits = (lines: PacedLine[]) =>
  lines
    .filter(({ phase, atSeconds }) => phase === 'settling' && atSeconds < untilWork(lines))
    .reduce((sum, { seconds }) => sum + seconds, 0);
const setUpOf = ({ setUp, setUpAgain }: { setUp: unknown[]; setUpAgain: unknown[] }) =>
  [...setUp, ...setUpAgain].map((line) => textOf(line as Parameters<typeof textOf>[0]));

describe.each(drills)('$id', (drill) => {
  const texts = setUpOf(drill);

  it('goes on with nothing of its set-up, and no sooner than with it', () => {
    const [fewer, more] = (['normal', 'learning'] as const).map((words) =>
      planSet(drill.id, { words, known: 'on' }),
    ) as [PacedLine[], PacedLine[]];
    expect(said(fewer).filter((text) => texts.includes(text))).toEqual([]);
    expect(said(fewer)).toContain(drill.steps[0]?.text);
    // One side rests while the other works.
    if (!drill.sided) expect(untilWork(fewer)).toBeCloseTo(untilWork(more), 2);
    else expect(waits(fewer)).toBeGreaterThanOrEqual(waits(more));
  });

  it('comes back with its short set-up and at least the time of the first', () => {
    const back = planSet(drill.id, { known: 'back' });
    expect(said(back).filter((text) => texts.includes(text))).toEqual(drill.setUpAgain.map(textOf));
    expect(said(back)).not.toContain(drill.caution);
    expect(waits(back)).toBeGreaterThanOrEqual(waits(planSet(drill.id, { known: 'new' })));
  });

  it('in tones says no set-up and what to take neither, but its caution the first time', () => {
    for (const known of ['new', 'back', 'on'] as const) {
      const lines = planSet(drill.id, { words: 'tones', known });
      const silent = [...texts, drill.steps[0]?.text ?? '', drill.good];
      expect(said(lines).filter((text) => silent.includes(text))).toEqual([]);
      expect(said(lines).includes(drill.caution)).toBe(known === 'new');
      const tones = lines.flatMap(({ beats }) => beats.filter(({ text }) => text === null));
      expect(tones.map(({ count }) => count)).toEqual([3, 2, 1]);
    }
  });

  it('in tones says which fix, and a load that changes, once', () => {
    const [fix] = drill.fixes;
    const words = 'tones';
    const fixed = said(planSet(drill.id, { words, known: 'on' }, { fix: fix?.fault }));
    expect(fixed).toContain(fix?.cue);
    if (drill.easier === null) return;
    const load = { load: drill.easier.load };
    expect(said(planSet(drill.id, { words, known: 'on' }, load))).toContain(drill.easier.cue);
    const kept = planSet(drill.id, { words, known: 'on', isLoadSet: true }, load);
    expect(said(kept)).not.toContain(drill.easier.cue);
  });
});

describe.each(checks)('$id', (check) => {
  const texts = setUpOf(check);

  it('is tested again with its short set-up and at least the time of the first', () => {
    const [first, back, on] = (['new', 'back', 'on'] as const).map((known) =>
      planCheck(check.id, { known }),
    ) as [PacedLine[], PacedLine[], PacedLine[]];
    for (const lines of [back, on]) {
      expect(said(lines).filter((text) => texts.includes(text))).toEqual(
        check.setUpAgain.map(textOf),
      );
    }
    expect(waits(back)).toBeGreaterThanOrEqual(waits(first));
    expect(waits(on)).toBeLessThanOrEqual(waits(back));
  });

  it('is the same test however much is said of it', () => {
    const work = (lines: PacedLine[]) => said(lines).filter((text) => inSteps.includes(text));
    const inSteps = check.steps.flatMap(({ text }) => text ?? []);
    for (const words of ['learning', 'normal', 'tones'] as const) {
      for (const known of ['new', 'back', 'on'] as const) {
        expect(work(planCheck(check.id, { words, known }))).toEqual(inSteps);
      }
    }
  });

  it('in tones says its caution the first time, no set-up, and to breathe in before a breath', () => {
    for (const known of ['new', 'back', 'on'] as const) {
      const lines = planCheck(check.id, { words: 'tones', known });
      expect(said(lines).filter((text) => texts.includes(text))).toEqual([]);
      expect(said(lines).includes(check.caution)).toBe(known === 'new');
      const breath = lines.findIndex(({ phase }) => phase === 'exhaling');
      if (breath >= 0) expect(lines[breath - 1]?.text).toBe(book.lines['say.breathe-in']);
    }
  });
});
