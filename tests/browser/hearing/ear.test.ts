import { beforeAll, describe, expect, it } from 'vitest';
import { bookOf } from '../../../src/cli/verb';
import { browserBench, chromiumJobs } from '../../bench/hearing/browser/browserBench';
import { chromiumGoals, type ChromiumFigure } from '../../bench/hearing/browser/figures';
import { chromiumTable } from '../../bench/hearing/browser/part';
import { crowdOf, SoundRoom } from '../../bench/hearing/sounding';
import { SHIPPED } from '../../sounds/speakers';

/** A tiny run of `npm run bench hearing -- --part browser`, by the voice that is always there. */
describe('the ear in Chromium, measured', () => {
  let figures: ChromiumFigure[];
  const figure = (what: string) => figures.find((each) => each.what === what);
  beforeAll(async () => {
    const book = bookOf();
    const sounds = new SoundRoom(crowdOf([SHIPPED], []));
    const jobs = chromiumJobs({ book, speakers: [SHIPPED] }, 1, 1);
    const size = { repliesEach: 1, feeds: 15, atRates: 3, loads: false };
    figures = await browserBench(book, sounds, jobs, size);
  }, 300_000);

  it('hears what is spoken into its microphone', () => {
    expect(figure('replies heard right')).toMatchObject({ n: 3 });
    // A busy machine drops sound; an ear that is cut off hears none.
    expect(figure('replies heard right')?.median).toBeGreaterThan(30);
  });

  it.each([16000, 44100, 48000])('hears through a microphone of %d Hz', (rate) => {
    const right = figure(`heard right through ${rate} Hz`);
    expect(right).toMatchObject({ n: 3 });
    expect(right?.median).toBeGreaterThan(0);
  });

  it('tells how long a person waits, beside what Node takes', () => {
    const wait = figure('end of speech to a single answer');
    // Below the shortest silence that ends a reply it would have been told before its end.
    expect(wait?.median).toBeGreaterThan(150);
    expect(wait?.node?.median).toBeGreaterThan(150);
  });

  it('holds no more after fifteen replies than before', () => {
    expect(figure('memory grown over 15 replies')).toMatchObject({ n: 15 });
    expect(figure('memory grown over 15 replies')?.median).toBeLessThan(25);
  });

  it('prints each beside its goal, and says by how much one is missed', () => {
    const slow = figures.map((each) => ({ ...each, median: 1e4, percentile95: null }));
    const goals = chromiumGoals(slow);
    expect(goals.length).toBeGreaterThan(5);
    for (const goal of goals) expect(goal).toMatchObject({ met: false, by: 1e4 - goal.wanted });
    for (const { what } of figures) expect(chromiumTable(figures)).toContain(what);
  });
});
