import type { Area, Side } from '../areas';
import type { Step } from '../deciding/step';
import type { HomeworkDay } from '../handover/progressDay';
import { checksOf, type CueBook, type DrillScript, type Routine } from '../script';
import { askOf, scriptOf } from './asking';
import type { Known } from './known';
import type { PacedLine } from './line';
import { planStep } from './oneStep';

/** From the end of a question to the next cue: the answer, its tone, what comes next. */
const ANSWER_SECONDS = 4;
/** Two held sets move on. */
const SETS_A_RUNG = 2;

interface Work {
  step: Extract<Step, { do: 'check' | 'set' }>;
  known: Known;
}

/**
 * What a routine takes at most if all goes to plan: every check on each side, each ladder from its
 * first rung with two sets a rung, every retest, and an answer to each question. `step` is the
 * prompt, with its side or set. Seconds.
 */
export function planOf(
  book: CueBook,
  routine: Routine,
  secondsOf: (text: string) => number,
): { step: string; seconds: number }[] {
  return routine.items
    .flatMap(({ do: what, area }) =>
      what === 'ladder' ? ladderSets(book, area) : checkSteps(book, area, what === 'retest'),
    )
    .map(({ step, known }) => {
      const lines = planStep(book, step, secondsOf, { known });
      return planned(nameOf(step), lines, secondsOf(askOf(book, step)));
    });
}

/**
 * What the homework of a day takes if all goes to plan: how each morning after was, then every set
 * of each dose with its rests, in the words of learning, and an answer to each question. Seconds.
 */
export function planHomework(
  book: CueBook,
  { tasks }: Pick<HomeworkDay, 'tasks'>,
  secondsOf: (text: string) => number,
): { step: string; seconds: number }[] {
  const mornings = tasks.flatMap(({ area, before }) => {
    if (before === null) return [];
    const { daysAgo } = before;
    const step = { do: 'ask', prompt: 'pain/how-much', about: 'pain-morning' } as const;
    const seconds = secondsOf(askOf(book, { ...step, area, daysAgo }));
    return [planned(`morning after, ${area}`, [], seconds)];
  });
  const sets = tasks.flatMap(({ area, drill, rung, load }) => {
    const script = scriptOf(book.drills, drill, 'drill');
    return setsOf(script, script.dose.sets, { area, rung, load, homework: true }).map(
      ({ step, known }) => {
        const lines = planStep(book, step, secondsOf, { known, words: 'learning' });
        return planned(nameOf(step), lines, secondsOf(askOf(book, step)));
      },
    );
  });
  return [...mornings, ...sets];
}

/** A step with its work, its question and the answer to it; seconds to a tenth. */
function planned(step: string, lines: readonly PacedLine[], askSeconds: number) {
  const last = lines.at(-1);
  const workSeconds = last === undefined ? 0 : last.atSeconds + last.seconds;
  const seconds = workSeconds + askSeconds + ANSWER_SECONDS;
  return { step, seconds: Math.round(seconds * 10) / 10 };
}

const sidesOf = ({ sided }: { sided: boolean }): (Side | null)[] =>
  sided ? ['left', 'right'] : [null];

const checkSteps = (book: CueBook, area: Area, retest: boolean): Work[] =>
  checksOf(book, area).flatMap((check) =>
    sidesOf(check).map((side) => ({
      step: {
        do: 'check',
        prompt: `check/${check.id}`,
        area,
        check: check.id,
        side,
        try: 1,
        retest,
      },
      known: side === 'right' ? 'on' : retest ? 'back' : 'new',
    })),
  );

const ladderSets = (book: CueBook, area: Area): Work[] =>
  (book.ladders[area]?.rungs ?? []).flatMap(({ drill: id }, index) => {
    const drill = book.drills[id];
    if (drill === undefined) return [];
    return setsOf(drill, SETS_A_RUNG, { area, rung: index + 1, load: 'as-written' });
  });

/** So many sets of a drill, each on both sides where it has them. */
const setsOf = (
  drill: DrillScript,
  sets: number,
  more: Pick<Extract<Step, { do: 'set' }>, 'area' | 'rung' | 'load' | 'homework'>,
): Work[] =>
  Array.from({ length: sets }, (_, set) =>
    sidesOf(drill).map((side): Work => ({
      step: {
        do: 'set',
        prompt: `set/${drill.id}`,
        drill: drill.id,
        side,
        set: set + 1,
        of: sets,
        fix: null,
        sayGood: false,
        lookFirst: false,
        restored: false,
        ...more,
      },
      known: set > 0 || side === 'right' ? 'on' : 'new',
    })),
  ).flat();

const nameOf = (step: Work['step']): string =>
  [
    step.prompt,
    ...(step.side === null ? [] : [step.side]),
    ...(step.do === 'set' ? [`set ${step.set}`] : []),
    ...(step.do === 'check' && step.retest ? ['retest'] : []),
  ].join(' ');
