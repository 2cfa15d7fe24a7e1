import { beforeAll, describe, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { SHIPPED, spokenBy } from '../sounds/speakers';
import { BESIDE_TALK, WAYS, type CoachFigure, type Learnt, type Way } from './hearing/coachFigures';
import { fitCoaches } from './hearing/coachFit';
import type { Coach } from './hearing/coachVoices';

/** The voice that is always there, made to say L for R and V for W by how its words are spelled. */
const respelled = (text: string) => text.replaceAll('r', 'l').replaceAll('w', 'v');
const COACH: Coach = {
  name: 'shipped, l for r, v for w',
  half: 'tuned',
  kind: 'accent',
  say: (text, rate) => spokenBy({ speaker: SHIPPED, text: respelled(text), rate }),
};
const SIZE = { replies: 16, session: 3, talk: 2, ownWords: 2 };

/** A tiny run of `npm run bench hearing -- --part coach`. */
describe('fitting to a coach, measured', () => {
  let figures: CoachFigure[];
  let learnt: Learnt[];
  let shown: string;
  beforeAll(async () => {
    const stage = { book: bookOf(), speakers: [SHIPPED], human: [], seed: 2 };
    const ran = await fitCoaches(stage, (half) => (half === 'tuned' ? [COACH] : []), SIZE);
    figures = ran.figures.filter((each) => each.figure === 'coach');
    learnt = ran.figures.filter((each) => each.figure === 'learnt');
    shown = ran.shown;
  }, 180_000);
  const figure = (kind: CoachFigure['kind'], way: Way) =>
    figures.find((each) => each.kind === kind && each.way === way);

  it('learns from the voice check which phones this voice makes of others', () => {
    expect(learnt).toHaveLength(1);
    expect(learnt[0]?.swaps).toContainEqual(expect.objectContaining({ said: 'R', heard: 'L' }));
  });

  it('hears more of its replies after the voice check than before', () => {
    const [before, after] = [figure('accent', 'before'), figure('accent', 'voice check')];
    expect(before?.right).toBeLessThan(SIZE.replies);
    expect(after?.right).toBeGreaterThan(before?.right ?? SIZE.replies);
  });

  it('hears the same replies by each way of learning, and counts every one of them once', () => {
    const ways = figures.filter(({ kind }) => kind === 'accent');
    expect(ways.map(({ way }) => way)).toEqual(WAYS);
    for (const { replies, right, wrong, missed, way } of ways) {
      expect(replies, way).toBe(SIZE.replies);
      expect(right + wrong + missed, way).toBeLessThanOrEqual(replies);
    }
  });

  it("hears other people's talk beside, and the coach's own words", () => {
    for (const way of BESIDE_TALK) expect(figure('accent', way), way).toMatchObject({ talk: 2 });
    for (const way of ['before', 'voice check'] as const)
      expect(figure('own words', way), way).toMatchObject({ replies: 2 });
  });

  it('prints a row of figures for each', () => {
    const rows = figures.map(({ kind, way, replies, right }) => {
      const percent = ((100 * right) / replies).toFixed(1);
      return [`tuned, ${kind}`, way, `${replies}`, percent].join(' +').replace('.', '\\.');
    });
    expect(rows).toHaveLength(WAYS.length + 2);
    for (const row of rows) expect(shown).toMatch(new RegExp(row));
  });
});
