import type { Figure, ReplyFigure } from './figures';
import { CORPUS_PARTS, type TextFigure } from './texts';

/** A goal beside what was measured; `by` is how far it is missed, in the goal's own unit. */
export interface Goal {
  goal: string;
  wanted: number;
  isLeast: boolean;
  unit: string;
  measured: number | null;
  /** The end of the 95 % interval that speaks against the goal, where there is one. */
  bound: number | null;
  met: boolean | null;
  /** Met, and the interval too: so much sound leaves no doubt. */
  proven: boolean | null;
  by: number | null;
}

/** Goals of the ear on the reported half. They are never moved; what is not measured says so. */
export function goalsOf(figures: Figure[], texts: TextFigure[]): Goal[] {
  const replies = (part: ReplyFigure['part'], condition: string) =>
    figures.find(
      (each): each is ReplyFigure =>
        each.figure === 'replies' &&
        each.part === part &&
        isOurs(each.ear) &&
        each.half === 'reported' &&
        each.condition === condition,
    );
  const right = (condition: string, wanted: number): Goal => {
    const found = replies('replies', condition)?.right;
    return least(`right, ${condition}`, wanted, '%', found?.percent, found?.from);
  };
  const urgent = (kind: string): Goal => {
    const found = replies('urgent', `${kind} at 10 dB`)?.right;
    return least(`${kind} by itself at 10 dB, heard`, 99.5, '%', found?.percent, found?.from);
  };
  const talk = (at: 'question' | 'idle', wanted: number): Goal => {
    const found = figures.find(
      (each) =>
        each.figure === 'other speech' &&
        isOurs(each.ear) &&
        each.at === at &&
        each.source === 'all talk',
    );
    const figure = found?.figure === 'other speech' ? found : undefined;
    return most(
      `false accepts at ${at === 'idle' ? 'idle' : 'a question'}`,
      wanted,
      'an hour',
      figure?.acceptedAnHour,
      figure?.acceptedAnHourAtMost,
    );
  };
  const time = (what: string, wanted: number): Goal => {
    const found = figures.find(
      (each) => each.figure === 'milliseconds' && isOurs(each.ear) && each.what === what,
    );
    return most(
      `${what}, 95th percentile (Node here, Chromium in the goal)`,
      wanted,
      'ms',
      found?.figure === 'milliseconds' ? found.percentile95 : undefined,
    );
  };
  const wrong = replies('replies', 'all')?.wrong;
  return [
    right('clean', 99.5),
    right('all at 10 dB', 98.5),
    right('all at 5 dB', 96),
    most('wrong and accepted, all conditions', 0.3, '%', wrong?.percent, wrong?.to),
    urgent('stop'),
    urgent('pain'),
    urgent('red flag'),
    talk('question', 2),
    talk('idle', 0.2),
    time('end of speech to a single answer', 350),
    time('end of speech to a stop word', 200),
    ...CORPUS_PARTS.map((half) => {
      const found = texts.find((each) => each.half === half)?.right;
      return least(`text understood, ${half} corpus`, 99, '%', found?.percent, found?.from);
    }),
  ];
}

/** The ear whose goals these are; the deaf one stands in for it where the bench itself is tried. */
const isOurs = (ear: string) => ear === 'ours' || ear === 'deaf';

type Measured = [goal: string, wanted: number, unit: string, measured?: number, bound?: number];
const least = (...measured: Measured) => judged(true, ...measured);
const most = (...measured: Measured) => judged(false, ...measured);

function judged(isLeast: boolean, ...[goal, wanted, unit, measured, bound]: Measured): Goal {
  const short = (value: number) => round(isLeast ? wanted - value : value - wanted);
  const met = measured === undefined ? null : isLeast ? measured >= wanted : measured <= wanted;
  return {
    goal,
    wanted,
    isLeast,
    unit,
    measured: measured ?? null,
    bound: bound ?? null,
    met,
    proven: met === null || bound === undefined ? null : met && short(bound) <= 0,
    by: met === false && measured !== undefined ? short(measured) : null,
  };
}

const round = (value: number) => Math.round(value * 10) / 10;
