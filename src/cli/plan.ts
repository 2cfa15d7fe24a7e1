import type { WarmUpPlan } from '../domain/warmUp/planning';
import { HOMEWORK } from '../domain/handover/progressDay';
import { leftSentence, taskSentence } from '../domain/handover/progressWords';
import { planHomework, planOf } from '../domain/pacing/planning';
import { secondsIn } from './durations';
import { homeworkGiven } from './handover';
import { WrongUsage } from './refused';
import { plannedWarmUp } from './warmUps';
import { answer, bookOf, onlyOne, parse, routineOf, type Parsed, type Verb } from './verb';

export const plan: Verb = {
  does: 'the steps and the expected duration of a routine or a warm-up',
  usage:
    'Usage: sayso plan ROUTINE [--minutes N] [--language en]\n' +
    '       sayso plan --handover FILE.json [--earlier SESSION.json ...] [--at MOMENT]\n\n' +
    'Prints {"step","seconds"} a line and last {"totalSeconds"}. --minutes: a warm-up ends then.\n' +
    '--handover: what is done then of what a coach handed over, after the earlier sessions that\n' +
    '"rehearse homework --session" wrote; the last line has its tasks and what is left out, and why.',
  run(args) {
    const { values, positionals, lists } = parse(args, ['minutes', 'handover', 'at'], ['earlier']);
    const id = onlyOne(positionals);
    if (values.handover !== undefined) return ofHomework(id, values, lists.earlier);
    if (values.at !== undefined || lists.earlier !== undefined)
      throw new WrongUsage('--at and --earlier go with --handover alone.');
    const book = bookOf(values.language);
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

/** The homework of that moment, step by step, and why it is that. */
function ofHomework(
  id: string | undefined,
  { handover, at, minutes }: Parsed['values'],
  earlier: readonly string[] = [],
): number {
  if (minutes !== undefined) throw new WrongUsage('--minutes goes with a warm-up alone.');
  if (id !== undefined && id !== HOMEWORK)
    throw new WrongUsage(`--handover plans homework: leave out "${id}".`);
  const { book, day } = homeworkGiven({ handover, earlier, at });
  const steps = planHomework(book, day, secondsIn(book.language));
  for (const each of steps) answer(each);
  const total = steps.reduce((sum, { seconds }) => sum + seconds, 0);
  answer({
    totalSeconds: Math.round(total * 1000) / 1000,
    tasks: day.tasks.map((task) => ({ ...task, because: taskSentence(book, task) })),
    left: day.left.map((each) => ({ ...each, because: leftSentence(book, each) })),
  });
  return 0;
}

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
