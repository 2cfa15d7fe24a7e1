import type { TimeFigure } from '../figures';
import { waitFor, type Drive, type HeardAt, type Load } from './driving';
import type { Goal } from '../goals';

/** One thing measured in Chromium, with its goal and what Node took for the same sound. */
export interface ChromiumFigure {
  figure: 'in Chromium';
  what: string;
  unit: 'ms' | 's' | 'MB' | '%' | 'Hz';
  n: number;
  median: number;
  percentile95: number | null;
  /** At most this; judged on the 95th percentile where there is one. */
  goal: number | null;
  node: { median: number; percentile95: number } | null;
}

const percentile = (values: number[], share: number) => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
};
const tenth = (value: number) => Math.round(value * 10) / 10;

const spread = (what: string, times: number[], goal: number | null): ChromiumFigure[] =>
  times.length === 0
    ? []
    : [
        {
          figure: 'in Chromium',
          what,
          unit: 'ms',
          n: times.length,
          median: tenth(percentile(times, 0.5)),
          percentile95: tenth(percentile(times, 0.95)),
          goal,
          node: null,
        },
      ];
const single = (
  what: string,
  unit: ChromiumFigure['unit'],
  value: number,
  goal: number | null,
  n = 1,
): ChromiumFigure => ({
  figure: 'in Chromium',
  what,
  unit,
  n,
  median: tenth(value),
  percentile95: null,
  goal,
  node: null,
});

const WAITS = [
  ['a single answer', 350],
  ['a combined answer', null],
  ['a stop word', 200],
] as const;

/** @param node the same sounds in Node, from timeFigures. */
export function chromiumFigures(drive: Drive, node: TimeFigure[]): ChromiumFigure[] {
  const { heard, switches, scored, frames, megabytes, memory } = drive;
  const waits = WAITS.flatMap(([kind, goal]) => {
    const what = `end of speech to ${kind}`;
    const times = heard
      .filter(({ job, outcome }) => waitFor(job) === kind && /^(accepted|asked)$/.test(outcome))
      .flatMap(({ afterMilliseconds }) => afterMilliseconds ?? []);
    const inNode = node.find((each) => each.ear === 'ours' && each.what === what) ?? null;
    return spread(what, times, goal).map((figure) => ({ ...figure, node: inNode }));
  });
  const looks = node.find((each) => each.ear === 'ours' && each.what === 'a look') ?? null;
  const right = heard.filter(({ outcome }) => outcome === 'accepted' || outcome === 'asked');
  return [
    ...waits,
    ...spread('a question asked for the first time, in the page', switches.first, 5),
    ...spread('a question asked again, in the page', switches.again, 5),
    ...spread('its replies made ready, in the worker', scored.compileMilliseconds, null),
    ...spread('scoring, any list or combined reply', scored.scoreMilliseconds, 15),
    ...spread(
      'a reply weighed, both looks where two are needed',
      scored.lookMilliseconds,
      null,
    ).map((each) => ({
      ...each,
      node: looks,
    })),
    single('replies heard right', '%', (100 * right.length) / heard.length, null, heard.length),
    single(
      'frames of the page dropped while hearing',
      '%',
      (100 * frames.dropped) / Math.max(1, frames.drawn + frames.dropped),
      null,
      frames.drawn + frames.dropped,
    ),
    single('longest frame', 'ms', frames.longestMilliseconds, null),
    single('memory of the renderer, ear ready', 'MB', megabytes.ready, 200),
    single('memory of the renderer, after hearing', 'MB', megabytes.afterHearing, 200),
    ...(memory === null
      ? []
      : [
          single(
            `memory grown over ${memory.replies} replies`,
            'MB',
            memory.after - memory.before,
            null,
            memory.heard,
          ),
          single(`memory after ${memory.replies} replies`, 'MB', memory.after, 200),
        ]),
  ];
}

const COLD_SECONDS = 3;
const WARM_SECONDS = 1;

export const loadFigures = (loads: Load[]): ChromiumFigure[] =>
  loads.flatMap(({ line, cold, warm }) => [
    single(`cold load to the first reply, ${line}`, 's', cold / 1000, COLD_SECONDS),
    single(
      `warm load to the first reply, ${line}`,
      's',
      percentile(warm, 0.5) / 1000,
      WARM_SECONDS,
      warm.length,
    ),
  ]);

/** The app's path at a microphone of another rate: how many of the replies were heard right. */
export const rateFigures = ({ sampleRate, heard }: HeardAt): ChromiumFigure[] => {
  const right = heard.filter(({ outcome }) => outcome === 'accepted' || outcome === 'asked');
  const share = (100 * right.length) / heard.length;
  return [single(`heard right through ${sampleRate} Hz`, '%', share, null, heard.length)];
};

/** The goals that only a browser can answer; on loopback where a line matters. */
export function chromiumGoals(figures: ChromiumFigure[]): Goal[] {
  return figures.flatMap((figure) => {
    if (figure.goal === null) return [];
    const measured = figure.percentile95 ?? figure.median;
    const met = measured <= figure.goal;
    return [
      {
        goal: `${figure.what}, in Chromium${figure.percentile95 === null ? '' : ', 95th percentile'}`,
        wanted: figure.goal,
        isLeast: false,
        unit: figure.unit,
        measured,
        bound: null,
        met,
        proven: null,
        by: met ? null : tenth(measured - figure.goal),
      },
    ];
  });
}
