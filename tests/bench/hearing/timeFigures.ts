import {
  grouped,
  heardOf,
  tenth,
  type Done,
  type Heard,
  type MemoryFigure,
  type TimeFigure,
} from './figures';
import { isSingle, kindOf } from './replies';

function timeFigure(ear: string, what: string, times: number[]): TimeFigure[] {
  if (times.length === 0) return [];
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) =>
    Math.round(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0);
  return [
    { figure: 'milliseconds', ear, what, n: times.length, median: at(0.5), percentile95: at(0.95) },
  ];
}

const isSingleAnswer = ({ job }: Heard) => job.part === 'replies' && isSingle(job.wanted.reply);

export function timeFigures(done: Done): TimeFigure[] {
  const groups: [string, (heard: Heard) => boolean][] = [
    ['a single answer', isSingleAnswer],
    // People pause inside a reply: what may go on is waited for much longer.
    [
      'a single answer that cannot go on',
      (heard) => isSingleAnswer(heard) && heard.following === 'nothing',
    ],
    [
      'a single answer that pain or the rest of a phrase may follow',
      (heard) => isSingleAnswer(heard) && heard.following === 'little',
    ],
    [
      'a single answer that may go on',
      (heard) => isSingleAnswer(heard) && heard.following === 'more',
    ],
    ['a combined answer', ({ job }) => job.part === 'replies' && !isSingle(job.wanted.reply)],
    ['a stop word', ({ job }) => job.part === 'urgent' && kindOf(job.wanted.reply) === 'stop'],
  ];
  return grouped(heardOf(done), ({ ear }) => ear).flatMap(([ear, all]) => [
    ...timeFigure(
      ear,
      'a look',
      all.flatMap(({ lookMilliseconds }) => lookMilliseconds),
    ),
    ...groups.flatMap(([what, test]) => {
      const some = all.filter(test);
      return [
        ...timeFigure(
          ear,
          `end of speech to ${what}`,
          some.flatMap(({ delayMilliseconds }) => delayMilliseconds ?? []),
        ),
        ...timeFigure(
          ear,
          `end of speech to ${what}, computing left out`,
          some.flatMap(({ waitMilliseconds }) => waitMilliseconds ?? []),
        ),
      ];
    }),
  ]);
}

export const memoryFigures = (done: Done): MemoryFigure[] =>
  done
    .flatMap(({ answers }) => answers)
    .flatMap((answer) =>
      answer.kind !== 'memory'
        ? []
        : [
            {
              figure: 'memory',
              ear: answer.ear,
              replies: answer.replies,
              grownMegabytes: tenth(answer.grownMegabytes),
              megabytes: tenth(answer.megabytes),
            },
          ],
    );
