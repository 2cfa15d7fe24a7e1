/** What is done of a handover and what is not, as it is shown. */
import { say } from '../saying';
import type { CueBook } from '../script';
import type { HomeworkDay } from './progressDay';

/** Why this is the task of an area today: "The same as the last day." */
export const taskSentence = ({ lines }: CueBook, { why }: HomeworkDay['tasks'][number]): string =>
  say(lines, `shown.task-${why}`, {});

/** Why nothing of an area is done, and who is asked: it names the area. */
export function leftSentence({ lines }: CueBook, { area, why }: HomeworkDay['left'][number]) {
  const name = lines[`area.${area}`] ?? area;
  return say(lines, `shown.left-${why}`, { area: name.charAt(0).toUpperCase() + name.slice(1) });
}
