import type { Step } from '../deciding/step';
import { say } from '../saying';
import type { CueBook } from '../script';

/** What is asked when the work of a step is done; empty at the end, where nothing is asked. */
export function askOf(book: CueBook, step: Step): string {
  switch (step.do) {
    case 'check':
      return scriptOf(book.checks, step.check, 'check').ask;
    case 'set': {
      const { ask, selfCheck } = scriptOf(book.drills, step.drill, 'drill');
      return step.homework ? (selfCheck ?? ask) : ask;
    }
    case 'ask':
      if (step.about === 'pain-morning') return morningAsk(book, step);
      return say(
        book.lines,
        step.about === 'end-session' ? 'confirm.end' : `ask.${step.about}`,
        {},
      );
    case 'end':
      return '';
  }
}

/** The next morning, or where more days went by that morning and what came after it. */
const morningAsk = (
  { lines }: CueBook,
  { area, daysAgo }: Extract<Step, { about: 'pain-morning' }>,
): string =>
  say(lines, daysAgo > 1 ? 'ask.pain-since' : 'ask.pain-morning', {
    area: lines[`area.${area}`] ?? area,
  });

/** A check or drill of the book; throws with the known ones where there is none of that name. */
export function scriptOf<T>(scripts: Record<string, T>, id: string, what: string): T {
  const script = Object.hasOwn(scripts, id) ? scripts[id] : undefined;
  if (script === undefined) {
    throw new Error(`There is no ${what} "${id}". Known: ${Object.keys(scripts).join(', ')}.`);
  }
  return script;
}
