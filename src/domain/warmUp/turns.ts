/** The turns of a warm-up: each a change, in which it is told, and the work that follows. */
import { numberCounting } from '../hearing/numbers';
import { BREATH_SECONDS } from '../pacing/line';
import { say } from '../saying';
import type { CueBook, DrillScript } from '../script';
import {
  CHANGE_SECONDS,
  LEAST_BREATHS,
  WORK_SECONDS,
  type BreatheBlock,
  type WarmUp,
  type WarmUpPart,
} from './warmUp';

/** Time to breathe in before a long exhale, as in every drill. */
export const BREATHE_IN_SECONDS = 3;
/** Spoken in the last seconds of a change: three, two, one. */
export const COUNT_IN = [3, 2, 1] as const;

/** From and to how many seconds something may be made shorter or longer. */
export interface Stretch {
  least: number;
  written: number;
  most: number;
}

export interface Turn {
  /** Place among all turns as they are written, from 0. */
  at: number;
  /** Place of its part in the warm-up, and of its block in the part; a turn of stations has none. */
  part: number;
  block: number | null;
  round: number;
  /** As spoken and shown. */
  name: string;
  /** What is said in the change before it, in order. */
  told: string[];
  change: Stretch;
  work: Stretch;
  /** The sides change in the middle. */
  isSided: boolean;
  breathing: { breaths: number; exhaleSeconds: number } | null;
}

/**
 * Every turn in order, with what is said in it. A drill that comes for the first time is named,
 * shown and has its caution said; later it is only named. With `fewBreaths` there are no more long
 * exhales in a row than settle anybody. What was said before a turn that was `skipped` (its place)
 * counts as not said: nobody worked by it.
 *
 * @throws RangeError where a drill is not in the book
 */
export function turnsOf(
  book: CueBook,
  warmUp: WarmUp,
  secondsOf: (text: string) => number,
  {
    fewBreaths = false,
    skipped = NONE,
  }: { fewBreaths?: boolean; skipped?: ReadonlySet<number> } = {},
): Turn[] {
  const known = new Set<string>();
  let at = 0;
  const placed = (part: number, round: number): Placed => ({
    ...{ part, round, secondsOf, fewBreaths },
    isNew: (drill) => !known.has(drill),
    tell(drills) {
      if (!skipped.has(at)) for (const drill of drills) known.add(drill);
      at += 1;
      return at - 1;
    },
  });
  return warmUp.parts.flatMap((part, index) =>
    Array.from({ length: part.rounds }, (_, round) =>
      part.arrangement === 'together'
        ? together(book, part, placed(index, round + 1))
        : stations(book, part, placed(index, round + 1)),
    ).flat(),
  );
}

const NONE: ReadonlySet<number> = new Set();

interface Placed {
  part: number;
  round: number;
  secondsOf: (text: string) => number;
  fewBreaths: boolean;
  /** It was not shown yet. */
  isNew: (drill: string) => boolean;
  /** The next turn shows these drills; gives its place. */
  tell: (drills: string[]) => number;
}

function together(
  book: CueBook,
  part: Extract<WarmUpPart, { arrangement: 'together' }>,
  { part: at, round, secondsOf, fewBreaths, isNew, tell }: Placed,
): Turn[] {
  return part.blocks.map((block, index) => {
    const place = { part: at, block: index, round };
    if (block.do === 'breathe') {
      const told = [say(book.lines, 'group.next', { name: block.name }), block.demo];
      return {
        ...{ ...place, at: tell([]), name: block.name, told },
        change: changeOf(told, block.changeSeconds, secondsOf),
        ...breathing(block, fewBreaths),
      };
    }
    const drill = drillOf(book, block.drill);
    const told = [
      say(book.lines, 'group.next', { name: drill.name }),
      ...(isNew(drill.id) ? [block.demo, drill.caution] : []),
    ];
    return {
      ...{ ...place, at: tell([drill.id]), name: drill.name, told },
      change: changeOf(told, block.changeSeconds, secondsOf),
      work: stretch(block.workSeconds, WORK_SECONDS),
      isSided: drill.sided,
      breathing: null,
    };
  });
}

/** Each station is shown before the first turn that is done; after that everybody moves on by one. */
function stations(
  book: CueBook,
  part: Extract<WarmUpPart, { arrangement: 'stations' }>,
  { part: at, round, secondsOf, isNew, tell }: Placed,
): Turn[] {
  const drills = part.stations.map(({ drill }) => drillOf(book, drill));
  const counting = (value: number) => numberCounting(book.vocabulary.numbers, value);
  const cards = () =>
    part.stations.flatMap(({ demo }, index) => {
      const drill = drills[index];
      if (drill === undefined || !isNew(drill.id)) return [];
      const { name, caution } = drill;
      const number = counting(index + 1);
      return [say(book.lines, 'group.station', { number, name }), demo, caution];
    });
  return drills.map((_, turn) => {
    const told = [
      ...cards(),
      say(book.lines, turn === 0 ? 'group.to-stations' : 'group.move-on', {}),
    ];
    return {
      ...{ part: at, block: null, round, told, breathing: null },
      at: tell(drills.map(({ id }) => id)),
      name: say(book.lines, 'group.turn', {
        number: counting(turn + 1),
        of: counting(drills.length),
      }),
      change: changeOf(told, part.changeSeconds, secondsOf),
      work: stretch(part.workSeconds, WORK_SECONDS),
      isSided: drills.some(({ sided }) => sided),
    };
  });
}

function breathing(
  { breaths, exhaleSeconds }: BreatheBlock,
  fewBreaths: boolean,
): Pick<Turn, 'work' | 'isSided' | 'breathing'> {
  const done = fewBreaths ? Math.min(breaths, LEAST_BREATHS) : breaths;
  // Counted second by second: a breath is never made shorter or longer.
  const seconds = done * (BREATHE_IN_SECONDS + exhaleSeconds);
  return {
    work: { least: seconds, written: seconds, most: seconds },
    isSided: false,
    breathing: { breaths: done, exhaleSeconds },
  };
}

/** A change is never shorter than what is said in it and the count-in. */
function changeOf(
  told: string[],
  writtenSeconds: number,
  secondsOf: (text: string) => number,
): Stretch {
  const spoken = told.reduce((total, text) => total + secondsOf(text) + BREATH_SECONDS, 0);
  const least = round(Math.max(CHANGE_SECONDS.least, spoken + COUNT_IN.length));
  const written = Math.max(writtenSeconds, least);
  return { least, written, most: Math.max(written, CHANGE_SECONDS.most) };
}

const stretch = (written: number, { least, most }: { least: number; most: number }): Stretch => ({
  least: Math.min(written, least),
  written,
  most: Math.max(written, most),
});

/** Whole milliseconds, so that sums stay exact. */
export const round = (seconds: number): number => Math.round(seconds * 1000) / 1000;

export function drillOf(book: CueBook, id: string): DrillScript {
  const drill = book.drills[id];
  if (drill === undefined) throw new RangeError(`There is no drill "${id}" in the cue scripts.`);
  return drill;
}
