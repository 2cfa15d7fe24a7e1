import { grouped, rateAtMost, tenth, type Done, type TalkFigure } from './figures';
import type { TalkJob } from './jobs';

/** False accepts of all talk together, then of each source; the next rack's replies apart. */
export function talkFigures(done: Done): TalkFigure[] {
  const all = done.flatMap(({ job, answers }) =>
    job.kind !== 'talk'
      ? []
      : answers.flatMap((answer) =>
          answer.kind === 'talk' ? [{ ...answer, source: (job as TalkJob).source }] : [],
        ),
  );
  const figure = (source: string, some: typeof all): TalkFigure[] =>
    grouped(some, ({ ear, at }) => `${ear}|${at}`).flatMap(([, group]) => {
      const [first] = group;
      if (first === undefined) return [];
      const hours = group.reduce((sum, { seconds }) => sum + seconds, 0) / 3600;
      const accepted = group.flatMap((each) => each.accepted);
      const asked = group.flatMap((each) => each.asked);
      return [
        {
          figure: 'other speech',
          ear: first.ear,
          source,
          at: first.at,
          hours: Math.round(hours * 1000) / 1000,
          accepted: accepted.length,
          acceptedAnHour: tenth(accepted.length / hours),
          acceptedAnHourAtMost: tenth(rateAtMost(accepted.length, hours)),
          askedAnHour: tenth(asked.length / hours),
          heard: accepted,
        },
      ];
    });
  const talk = all.filter(({ source }) => source !== 'next rack');
  return [
    ...figure('all talk', talk),
    ...grouped(all, ({ source }) => source).flatMap(([source, some]) => figure(source, some)),
  ];
}
