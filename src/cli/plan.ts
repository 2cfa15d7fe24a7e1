import type { WarmUpPlan } from '../domain/warmUp/planning';
import { planOf } from '../domain/pacing/planning';
import { secondsIn } from './durations';
import { WrongUsage } from './refused';
import { plannedWarmUp } from './warmUps';
import { answer, bookOf, onlyOne, parse, routineOf, type Verb } from './verb';

export const plan: Verb = {
  does: 'the steps and the expected duration of a routine or a warm-up',
  usage:
    'Usage: sayso plan ROUTINE [--minutes N] [--language en]\n\n' +
    'Prints {"step","seconds"} a line and last {"totalSeconds"}. --minutes: a warm-up ends then.',
  run(args) {
    const { values, positionals } = parse(args, ['minutes']);
    const book = bookOf(values.language);
    const id = onlyOne(positionals);
    const warmUp = id === undefined ? undefined : book.warmUps[id];
    if (warmUp === undefined && values.minutes !== undefined)
      throw new WrongUsage(
        '--minutes goes with a warm-up alone: what a session takes, nobody knows.',
      );
    const steps =
      warmUp === undefined
        ? planOf(book, routineOf(book, id), secondsIn(book.language))
        : stepsOf(plannedWarmUp(book, warmUp, values.minutes));
    for (const { step, seconds } of steps) answer({ step, seconds });
    const total = steps.reduce((sum, { seconds }) => sum + seconds, 0);
    answer({ totalSeconds: Math.round(total * 1000) / 1000 });
    return 0;
  },
};

/** Welcome, each turn with the change before it, and the end: they sum to the whole. */
function stepsOf({ turns, totalSeconds }: WarmUpPlan): { step: string; seconds: number }[] {
  const begin = turns[0]?.atSeconds ?? 0;
  const end = turns.at(-1)?.endSeconds ?? 0;
  const step = (name: string, seconds: number) => ({
    step: name,
    seconds: Math.round(seconds * 1000) / 1000,
  });
  return [
    step('welcome', begin),
    ...turns.flatMap(({ turn, atSeconds, workAtSeconds, endSeconds }) => [
      step(`change to ${turn.name}`, workAtSeconds - atSeconds),
      step(turn.name, endSeconds - workAtSeconds),
    ]),
    step('end', totalSeconds - end),
  ];
}
