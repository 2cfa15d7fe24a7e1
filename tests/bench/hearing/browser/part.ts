import type { Apart, Stage } from '../apart';
import { table } from '../printing';
import { browserBench, CHROMIUM, chromiumJobs } from './browserBench';
import { chromiumGoals, type ChromiumFigure } from './figures';

/** `--part browser`: times, loads and memory in the Chromium that is installed. */
export async function chromiumPart({ book, speakers, sounds, seed, share }: Stage): Promise<Apart> {
  const some = (count: number) => Math.max(1, Math.round(count * share));
  const jobs = chromiumJobs({ book, speakers }, some(CHROMIUM.repliesEach), seed);
  const figures = await browserBench(book, sounds, jobs, {
    ...CHROMIUM,
    feeds: some(CHROMIUM.feeds),
    atRates: some(CHROMIUM.atRates),
  });
  return { figures, goals: chromiumGoals(figures), shown: chromiumTable(figures) };
}

export const chromiumTable = (figures: ChromiumFigure[]): string =>
  table(
    'In Chromium, on this machine as loaded as it was',
    ['what', 'unit', 'n', 'median', '95th percentile', 'goal', 'Node: median', '95th percentile'],
    figures.map(({ what, unit, n, median, percentile95, goal, node }) => [
      what,
      unit,
      `${n}`,
      `${median}`,
      `${percentile95 ?? '-'}`,
      goal === null ? '-' : `${goal}`,
      `${node?.median ?? '-'}`,
      `${node?.percentile95 ?? '-'}`,
    ]),
  );
