/** The plan of a warm-up: what happens at which second, and how it is made to end on time. */
import { numberCounting } from '../hearing/numbers';
import { BREATH_SECONDS } from '../pacing/line';
import { say } from '../saying';
import type { CueBook } from '../script';
import { boundsOf, fitted } from './fitting';
import { BREATHE_IN_SECONDS, COUNT_IN, round, turnsOf, type Turn } from './turns';
import { MOST_WAIT_SECONDS, type WarmUp } from './warmUp';

/** One thing that is heard, at seconds from the start of the warm-up. */
export type Heard =
  | { do: 'cue'; atSeconds: number; seconds: number; text: string }
  | { do: 'beat'; atSeconds: number; count: number; text: string | null }
  | { do: 'tone'; atSeconds: number; name: 'begin' | 'accepted' };

/** A turn at its place; `work` begins at `workAtSeconds`. */
export interface PlannedTurn {
  turn: Turn;
  atSeconds: number;
  workAtSeconds: number;
  endSeconds: number;
}

export interface WarmUpPlan {
  turns: PlannedTurn[];
  heard: Heard[];
  /** Names of blocks that are left out so that it ends on time. */
  leftOut: string[];
  totalSeconds: number;
}

/** It cannot be this short: what has to be said, and the least work, take so long. */
export interface TooShort {
  leastSeconds: number;
}

interface PlanOptions {
  /** It ends at this second, exactly; as written where left out. */
  endSeconds?: number | undefined;
  /** Turns that are over. */
  done?: number;
  /** The group was welcomed already; so where turns are over. */
  isUnderway?: boolean;
  /** Places of turns of which no work was done: what was said before them is said again. */
  skipped?: ReadonlySet<number>;
  /** At stations the first turn left is done where people stand, or one station back. */
  where?: 'stay' | 'back' | null;
  /** As short as it can be with nothing left out. */
  isShortest?: boolean;
}

/** How long a text takes to say so much slower than usual, in whole milliseconds. */
export const spokenSeconds =
  (secondsOf: (text: string) => number, stretch: number) =>
  (text: string): number =>
    round(secondsOf(text) * stretch);

/** The sides change, or half of the work is said to be over, where there is this much of it. */
const HALVES_FROM_SECONDS = 16;
const WARNING_SECONDS = 5;

/**
 * Plans a warm-up, or what is left of it after `done` turns. With `endSeconds` it ends then: work,
 * then changes become shorter (or longer); after that there are fewer breaths, then fewer rounds,
 * and last of all blocks are left out from the end. What is said of safety stays.
 */
export function planWarmUp(
  book: CueBook,
  warmUp: WarmUp,
  secondsOf: (text: string) => number,
  options: PlanOptions = {},
): WarmUpPlan | TooShort {
  const { endSeconds, done = 0, isUnderway = done > 0, skipped, isShortest = false } = options;
  const ending = say(book.lines, 'group.over', {});
  const closing = secondsOf(ending) + BREATH_SECONDS;
  const openingOf = (seconds: number) =>
    isUnderway
      ? []
      : [
          say(book.lines, 'group.welcome', {
            name: warmUp.name,
            minutes: minutesOf(book, seconds),
          }),
          say(book.lines, 'group.caution', {}),
        ];
  const spoken = (texts: string[]) =>
    round(texts.reduce((sum, text) => sum + secondsOf(text) + BREATH_SECONDS, 0));
  const left = (fewBreaths: boolean) =>
    standing(
      book,
      turnsOf(book, warmUp, secondsOf, { fewBreaths, ...(skipped && { skipped }) }).slice(done),
      options,
    );
  const asWritten = left(false);
  const withFewBreaths = left(true);
  const variants = [asWritten, ...fewerAndFewer(withFewBreaths)];
  for (const turns of variants) {
    const { least, written } = boundsOf(turns);
    const usual = isShortest ? least : written;
    // How many minutes it says counts among what is said.
    const opening = openingOf(endSeconds ?? spoken(openingOf(usual)) + usual + closing);
    const wanted = endSeconds ?? spoken(opening) + usual + closing;
    const forTurns = round(wanted - spoken(opening) - closing);
    if (least > forTurns + ROUNDING_SECONDS) continue;
    // Where blocks had to go, the gap that the last of them leaves is waited out.
    const mostWait = turns === asWritten ? MOST_WAIT_SECONDS : Math.max(forTurns, 0);
    const { turns: fit } = fitted(turns, forTurns, mostWait);
    const kept = new Set(turns.map(({ name }) => name));
    const leftOut = asWritten.flatMap(({ name }) => (kept.has(name) ? [] : [name]));
    return laidOut(book, { opening, ending, fit, secondsOf, leftOut: [...new Set(leftOut)] });
  }
  const last = variants.at(-1) ?? [];
  const opening = spoken(openingOf(boundsOf(last).least));
  return { leastSeconds: Math.ceil(opening + boundsOf(last).least + closing) };
}

/** The same, then without one turn after the other: later rounds first, and from the end. */
function fewerAndFewer(turns: Turn[]): Turn[][] {
  const order = turns
    .map(({ round }, at) => ({ round, at }))
    .sort((one, other) => other.round - one.round || other.at - one.at);
  return turns.map((_, out) => {
    const gone = new Set(order.slice(0, out).map(({ at }) => at));
    return turns.filter((__, at) => !gone.has(at));
  });
}

/** For people: half minutes are not worth saying. */
function minutesOf(book: CueBook, seconds: number): string {
  const minutes = Math.max(1, Math.round(seconds / 60));
  const number = numberCounting(book.vocabulary.numbers, minutes);
  return say(book.lines, minutes === 1 ? 'group.minute' : 'group.minutes', { number });
}

/** Sums of many milliseconds differ in their last digit. */
const ROUNDING_SECONDS = 1e-6;

/** Who stands at a station already is not sent on. */
function standing(book: CueBook, turns: Turn[], { where = null }: PlanOptions): Turn[] {
  const [first, ...others] = turns;
  if (first === undefined || where === null) return turns;
  const moveOn = say(book.lines, 'group.move-on', {});
  const instead = say(book.lines, where === 'stay' ? 'group.stay' : 'group.move-back', {});
  return [
    { ...first, told: first.told.map((text) => (text === moveOn ? instead : text)) },
    ...others,
  ];
}

interface ToLayOut {
  opening: string[];
  ending: string;
  fit: ReturnType<typeof fitted>['turns'];
  secondsOf: (text: string) => number;
  leftOut: string[];
}

function laidOut(
  book: CueBook,
  { opening, ending, fit, secondsOf, leftOut }: ToLayOut,
): WarmUpPlan {
  const heard: Heard[] = [];
  let now = 0;
  const cue = (text: string, atSeconds: number): number => {
    const seconds = secondsOf(text);
    heard.push({ do: 'cue', atSeconds, seconds, text });
    return round(atSeconds + seconds + BREATH_SECONDS);
  };
  for (const text of opening) now = cue(text, now);
  const turns = fit.map(({ turn, changeSeconds, workSeconds }): PlannedTurn => {
    const atSeconds = now;
    const workAtSeconds = round(atSeconds + changeSeconds);
    const endSeconds = round(workAtSeconds + workSeconds);
    let told = atSeconds;
    for (const text of turn.told) told = cue(text, told);
    for (const count of COUNT_IN)
      heard.push({
        ...{ do: 'beat', count, atSeconds: round(workAtSeconds - count) },
        text: say(book.lines, `count.${count}`, {}),
      });
    if (turn.breathing) breathe(book, heard, cue, turn.breathing, workAtSeconds);
    else work(book, heard, cue, turn, workAtSeconds, endSeconds);
    now = endSeconds;
    return { turn, atSeconds, workAtSeconds, endSeconds };
  });
  now = cue(ending, now);
  heard.sort((one, other) => one.atSeconds - other.atSeconds);
  return { turns, heard, leftOut, totalSeconds: now };
}

type Cue = (text: string, atSeconds: number) => number;

function work(
  book: CueBook,
  heard: Heard[],
  cue: Cue,
  { isSided }: Turn,
  fromSeconds: number,
  endSeconds: number,
): void {
  const seconds = endSeconds - fromSeconds;
  heard.push({ do: 'tone', atSeconds: fromSeconds, name: 'begin' });
  if (seconds >= HALVES_FROM_SECONDS)
    cue(
      say(book.lines, isSided ? 'group.other-side' : 'group.halfway', {}),
      round(fromSeconds + seconds / 2),
    );
  cue(say(book.lines, 'group.five-seconds', {}), round(endSeconds - WARNING_SECONDS));
  for (const count of COUNT_IN)
    heard.push({ do: 'beat', count, atSeconds: round(endSeconds - count), text: null });
}

function breathe(
  book: CueBook,
  heard: Heard[],
  cue: Cue,
  { breaths, exhaleSeconds }: NonNullable<Turn['breathing']>,
  fromSeconds: number,
): void {
  const breathSeconds = BREATHE_IN_SECONDS + exhaleSeconds;
  for (let breath = 0; breath < breaths; breath += 1) {
    const at = round(fromSeconds + breath * breathSeconds);
    cue(say(book.lines, 'say.breathe-in', {}), at);
    for (let count = 1; count <= exhaleSeconds; count += 1)
      heard.push({
        ...{ do: 'beat', count, atSeconds: round(at + BREATHE_IN_SECONDS + count - 1) },
        text: say(book.lines, `count.${count}`, {}),
      });
  }
}
