import type { Area, Side } from '../areas';
import type { Step } from '../deciding/step';
import { checksOf, type CueBook, type Routine } from '../script';
import { askOf } from './asking';
import type { Known } from './known';
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
      const last = planStep(book, step, secondsOf, { known }).at(-1);
      const workSeconds = last === undefined ? 0 : last.atSeconds + last.seconds;
      const seconds = workSeconds + secondsOf(askOf(book, step)) + ANSWER_SECONDS;
      return { step: nameOf(step), seconds: Math.round(seconds * 10) / 10 };
    });
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
    return Array.from({ length: SETS_A_RUNG }, (_, set) =>
      sidesOf(drill).map((side): Work => ({
        step: {
          do: 'set',
          prompt: `set/${id}`,
          area,
          drill: id,
          side,
          rung: index + 1,
          set: set + 1,
          of: SETS_A_RUNG,
          load: 'as-written',
          fix: null,
          sayGood: false,
          lookFirst: false,
          restored: false,
        },
        known: set > 0 || side === 'right' ? 'on' : 'new',
      })),
    ).flat();
  });

const nameOf = (step: Work['step']): string =>
  [
    step.prompt,
    ...(step.side === null ? [] : [step.side]),
    ...(step.do === 'set' ? [`set ${step.set}`] : []),
    ...(step.do === 'check' && step.retest ? ['retest'] : []),
  ].join(' ');
