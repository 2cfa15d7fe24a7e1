import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { speakersHere } from '../../sounds/speakers';
import { table } from '../hearing/printing';
import { nearFigure, ownTimeFigure } from './ownTime';
import { SILENT_WITHIN_MILLISECONDS, stopFigures, type StopFigure } from './stopping';

const USAGE =
  'Usage: npm run bench stop -- [--times N] [--leak=-12] [--above 10] [--own-time]; N at least 1, 4 where left out.';

/**
 * `npm run bench stop -- [--times N] [--leak=-12] [--above 10] [--own-time]`: how soon Sayso is
 * silent when "stop" is said over it in Chromium; `--own-time`: how soon it is told in the sound's
 * own time, in Node, and what halts that is only near to it.
 */
export async function benchStop(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: {
      times: { type: 'string', default: '4' },
      leak: { type: 'string', default: '-12' },
      above: { type: 'string', default: '10' },
      'own-time': { type: 'boolean', default: false },
    },
  });
  const times = Number(values.times);
  const leakDecibels = Number(values.leak);
  const aboveDecibels = Number(values.above);
  if (!(times >= 1 && Number.isFinite(leakDecibels) && Number.isFinite(aboveDecibels))) {
    console.error(USAGE);
    process.exitCode = 2;
    return;
  }
  const { here, missing } = await speakersHere();
  for (const each of missing) console.error(`Left out: ${each}`);
  const speakers = here.filter(({ half }) => half === 'reported');
  if (values['own-time']) {
    const figure = await ownTimeFigure(speakers, { aboveDecibels });
    const near = await nearFigure(here);
    console.log(`${shown([figure])}\n\n${JSON.stringify(near)}`);
    return;
  }
  const figures = await stopFigures({ times, speakers, leakDecibels, aboveDecibels });
  for (const figure of figures) console.log(JSON.stringify(figure));
  console.log(shown(figures));
  const load = loadavg().map((each) => Math.round(each * 10) / 10);
  console.log(
    `\n"Stop" ${aboveDecibels} dB above Sayso's own voice, which comes back ${leakDecibels} dB; load ${load.join(' ')}.`,
  );
}

const shown = (figures: StopFigure[]) =>
  table(
    `From the end of "stop" to silence, ms; goal: ${SILENT_WITHIN_MILLISECONDS} at the 95th percentile`,
    ['way', 'n', 'missed', 'median', '95th percentile', 'whose was missed'],
    figures.map(({ way, n, missed, medianMilliseconds, percentile95Milliseconds, missedOf }) => [
      way,
      ...[n, missed, medianMilliseconds ?? '-', percentile95Milliseconds ?? '-'].map(String),
      missedOf.join(', '),
    ]),
  );
