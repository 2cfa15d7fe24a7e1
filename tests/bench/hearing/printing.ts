import type { Figure, Share } from './figures';
import type { Goal } from './goals';
import type { TextFigure } from './texts';

export type Row = string[];

/** Columns as wide as their widest cell; the first two to the left. */
export function table(title: string, head: Row, rows: Row[]): string {
  if (rows.length === 0) return '';
  const wide = head.map((_, at) => Math.max(...[head, ...rows].map((row) => row[at]?.length ?? 0)));
  const line = (row: Row) =>
    row
      .map((cell, at) => (at < 2 ? cell.padEnd(wide[at] ?? 0) : cell.padStart(wide[at] ?? 0)))
      .join('  ')
      .trimEnd();
  return [`\n${title}`, line(head), ...rows.map(line)].join('\n');
}

const percent = ({ percent, from, to }: Share) => `${percent} (${from}-${to})`;
const short = ({ percent }: Share) => `${percent}`;

/** Everything for a person to read, with 95 % intervals. */
export function readable(figures: Figure[], texts: TextFigure[], goals: Goal[]): string {
  const replies = figures.filter((each) => each.figure === 'replies');
  const head = [
    'ear',
    'condition',
    'n',
    'right',
    'accepted',
    'asked',
    'asked wrong',
    'wrong',
    'missed',
  ];
  const titles = {
    replies: 'Replies, %',
    urgent: 'Stop words, pain and red flags by themselves, %',
    corpus: 'As coaches would say it (untouched corpus, in the grammar or not), %',
  };
  const parts = (['replies', 'urgent', 'corpus'] as const).flatMap((part) =>
    ['reported', 'tuned'].map((half) =>
      table(
        `${titles[part]}; ${half} half`,
        head,
        replies
          .filter((each) => each.part === part && each.half === half)
          .map((each) => [
            each.ear,
            each.condition,
            `${each.n}`,
            percent(each.right),
            short(each.accepted),
            short(each.asked),
            short(each.askedWrong),
            percent(each.wrong),
            short(each.missed),
          ]),
      ),
    ),
  );
  return [
    ...parts,
    table(
      'Missed by our ear, reported half',
      ['condition', 'how far they came', 'n'],
      figures
        .filter((each) => each.figure === 'missed')
        .map(({ condition, n, why }) => [
          condition,
          Object.entries(why)
            .map(([what, count]) => `${what} ${count}`)
            .join(', '),
          `${n}`,
        ]),
    ),
    table(
      'Other speech: taken for a reply and acted on',
      ['ear', 'speech', 'at', 'hours', 'accepted', 'an hour', '95 % below', 'asked an hour'],
      figures
        .filter((each) => each.figure === 'other speech')
        .map((each) => [
          each.ear,
          each.source,
          each.at,
          each.hours.toFixed(2),
          `${each.accepted}`,
          `${each.acceptedAnHour}`,
          `${each.acceptedAnHourAtMost}`,
          `${each.askedAnHour}`,
        ]),
    ),
    table(
      'Milliseconds (in Node, on this machine as loaded as it was)',
      ['ear', 'what', 'n', 'median', '95th percentile'],
      figures
        .filter((each) => each.figure === 'milliseconds')
        .map(({ ear, what, n, median, percentile95 }) => [
          ear,
          what,
          `${n}`,
          `${median}`,
          `${percentile95}`,
        ]),
    ),
    table(
      'Memory of the process, MB',
      ['ear', 'replies', 'grown by', 'in all'],
      figures
        .filter((each) => each.figure === 'memory')
        .map((each) => [
          each.ear,
          `${each.replies}`,
          `${each.grownMegabytes}`,
          `${each.megabytes}`,
        ]),
    ),
    table(
      'What our ear confused, and the lint of replies that sound alike (tuned half)',
      ['pairs', 'examples', 'the lint refuses', 'other replies sound less alike, %'],
      figures
        .filter((each) => each.figure === 'confusions')
        .map(({ pairs, named, nearer, examples }) => [
          `${pairs}`,
          examples.join(' | '),
          `${named}`,
          nearer === null ? '-' : percent(nearer),
        ]),
    ),
    table(
      'Text understood, %',
      ['corpus', 'right', 'n'],
      texts.map(({ half, right, n }) => [half, percent(right), `${n}`]),
    ),
    table(
      'Goals, on the reported half',
      ['goal', '', 'measured', '95 % bound', 'met'],
      goals.map((goal) => [
        goal.goal,
        `${goal.isLeast ? 'at least' : 'at most'} ${goal.wanted} ${goal.unit}`,
        goal.measured === null ? '-' : `${goal.measured}`,
        goal.bound === null ? '-' : `${goal.bound}`,
        judgement(goal),
      ]),
    ),
  ]
    .filter(Boolean)
    .join('\n');
}

function judgement({ met, proven, by, unit }: Goal): string {
  if (met === null) return 'not measured';
  if (!met) return `not met by ${by} ${unit}`;
  return proven === false ? 'met, but the bound is beyond it' : 'met';
}
