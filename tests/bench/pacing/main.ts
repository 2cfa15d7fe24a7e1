import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { table } from '../hearing/printing';
import { DRIFT_PERCENT, pacingFigures, WORST_MILLISECONDS, type PacingFigure } from './pacing';

const USUAL_SECONDS = 600;

/** `npm run bench pacing -- [--seconds N]`: how even beats are in Chromium, beside an interval. */
export async function benchPacing(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: { seconds: { type: 'string', default: String(USUAL_SECONDS) } },
  });
  const seconds = Number(values.seconds);
  if (!(seconds >= 6)) {
    console.error(
      'Usage: npm run bench pacing -- [--seconds N], N at least 6; 600 where left out.',
    );
    process.exitCode = 2;
    return;
  }
  const figures = await pacingFigures(seconds);
  for (const figure of figures) console.log(JSON.stringify(figure));
  console.log(shown(figures));
  const load = loadavg().map((each) => Math.round(each * 10) / 10);
  console.log(`\n${seconds} seconds each, load ${load.join(' ')}.`);
  for (const line of circumstances(figures)) console.log(line);
}

/** How far the figures can be trusted. */
function circumstances(figures: PacingFigure[]): string[] {
  const uncertain = figures.map(({ uncertainMilliseconds }) => uncertainMilliseconds ?? 0);
  return [
    figures.some(({ heardBy }) => heardBy === 'page')
      ? 'No virtual sound card (pulseaudio, parec): heard in the frames of the page itself, which stand where its sound does.'
      : `Heard by a recorder on a virtual sound card, in true time to within ${Math.max(...uncertain)} ms (nine of ten places).`,
    figures.some(({ isFirst }) => !isFirst)
      ? 'Chromium had to take its turn among all other programs.'
      : "Chromium's turn came before that of other programs.",
  ];
}

const shown = (figures: PacingFigure[]) =>
  table(
    `A beat a second in Chromium; goal: worst ${WORST_MILLISECONDS} ms, drift under ${DRIFT_PERCENT} %`,
    ['page', 'way', 'beats', 'lost', 'worst, ms', 'drift, %', 'sound stood, ms'],
    figures.map(
      ({ page, way, beats, lost, worstMilliseconds, driftPercent, stoodMilliseconds }) => [
        page,
        way,
        ...[beats, lost, worstMilliseconds, driftPercent, stoodMilliseconds].map(String),
      ],
    ),
  );
