import { describe, expect, it } from 'vitest';
import { secondsOf } from '../../../src/cli/durations';
import { bookOf } from '../../../src/cli/verb';
import { changeWords, closingWords } from '../../../src/domain/reporting/closing';
import { Telling } from '../deciding/logging';
import { Walk } from '../deciding/walking';
import type { AngleTool } from '../../../src/domain/findings';
import { begin, book } from './book';
import { saying, toRetest } from './measuring';

const closing = (told: Telling) => closingWords(told.book, told.entries);

describe('the closing words', () => {
  it('name the lifts that may be taught next and the homework', () => {
    const told = begin('readiness').held(4).lost('knees-caved').held(2).held(2);
    while (told.step.do === 'set') told.coach('next');
    told.lost('knees-caved');
    expect(closing(told)).toEqual([
      'These may be taught next: pulls and deadlifts and presses.',
      'Homework until next time: the cable squat.',
    ]);
  });

  it('say one thing where every lift is ready, and nothing where none is', () => {
    expect(closing(begin('readiness').held(8))).toEqual([
      'All families of lifts may be taught next.',
    ]);
    expect(closing(begin('hinge').hurts(9))).toEqual([]);
  });

  it('in a group say nothing of a person', () => {
    const told = begin('hinge').held(2);
    expect(closing(told)).toHaveLength(1);
    const [started, ...rest] = told.entries;
    const grouped = [{ ...started!, way: 'group' as const } as typeof started, ...rest];
    expect(closingWords(book, grouped as typeof told.entries)).toEqual([]);
  });

  it('take under ten seconds a line and twenty in all, in any session of the shipped scripts', () => {
    const shipped = bookOf();
    let longest = 0;
    for (let seed = 1; seed <= 300; seed += 1) {
      const walk = new Walk(seed, shipped);
      for (let turn = 0; turn < 80 && walk.told.step.do !== 'end'; turn += 1) walk.tell();
      const lines = closing(walk.told).map(secondsOf);
      for (const seconds of lines) expect(seconds, `seed ${seed}`).toBeLessThan(10);
      longest = Math.max(longest, ...lines);
      expect(
        lines.reduce((sum, one) => sum + one, 0),
        `seed ${seed}`,
      ).toBeLessThan(20);
    }
    expect(longest).toBeGreaterThan(3);
  });
});

describe('what a retest changed, as it is said', () => {
  const shipped = bookOf();
  const tried = (tool: AngleTool) => {
    const told = new Telling('overhead', 'hands-on', {}, shipped);
    return saying(saying(told, 'short', 110, tool), 'held', 160, tool).held(2);
  };
  const retested = (degrees: number, tool: AngleTool) =>
    saying(toRetest(tried(tool)), 'held', degrees, tool);
  const said = ({ entries }: Telling) => changeWords(shipped, entries, 'overhead');

  it('is called only beyond what test and tool can be out by', () => {
    expect(said(tried('inclinometer'))).toEqual([]);
    expect(said(retested(160, 'inclinometer'))).toEqual([
      'Left, from one ten to one sixty: better.',
    ]);
    expect(said(retested(130, 'inclinometer'))).toEqual([
      'Left, from one ten to one thirty: no change that the tool can tell.',
    ]);
  });

  it('by eye is not said at all', () => {
    expect(said(retested(160, 'eye'))).toEqual([]);
  });
});
