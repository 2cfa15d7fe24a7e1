import { planOf } from '../domain/pacing/planning';
import { secondsIn } from './durations';
import { answer, bookOf, onlyOne, parse, routineOf, type Verb } from './verb';

export const plan: Verb = {
  does: 'the steps and the expected duration of a routine',
  usage:
    'Usage: sayso plan ROUTINE [--language en]\n\n' +
    'Prints {"step","seconds"} a line and last {"totalSeconds"}.',
  run(args) {
    const { values, positionals } = parse(args, []);
    const book = bookOf(values.language);
    const steps = planOf(book, routineOf(book, onlyOne(positionals)), secondsIn(book.language));
    for (const { step, seconds } of steps) answer({ step, seconds });
    const total = steps.reduce((sum, { seconds }) => sum + seconds, 0);
    answer({ totalSeconds: Math.round(total * 1000) / 1000 });
    return 0;
  },
};
