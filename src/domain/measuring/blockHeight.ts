/**
 * How high the bell stands in the bell hinge: the top of its handle at knee height. Knee height by
 * stature is a regression over both sexes of ANSUR II (n = 6068); no two people of one stature are
 * alike, so measure the knee where it matters.
 */

const KNEE_INTERCEPT_MILLIMETRES = -84.73;
const KNEE_PER_STATURE = 0.32678;
/** Standard error of that estimate: two thirds of adults lie within it. */
export const KNEE_ERROR_MILLIMETRES = 15.1;
const STATURE_CENTIMETRES = { from: 140, to: 200 } as const;
const KNEE_MILLIMETRES = { from: 250, to: 700 } as const;
const ADULT_FROM_YEARS = 17;

/** Height of the top of the handle of a competition bell; cast bells differ, so measure. */
export const COMPETITION_BELL_MILLIMETRES = 280;

/** Measured, or estimated for an adult; under 17 it must be measured. */
export type KneeHeight =
  { measuredMillimetres: number } | { statureCentimetres: number; ageYears: number };

/**
 * Height of the kneecap's middle above the floor, barefoot, millimetres. Throws RangeError where
 * stature is outside 140 to 200 cm, the athlete is under 17, or a measured knee cannot be one.
 *
 * @example kneeHeightMillimetres({ statureCentimetres: 175, ageYears: 30 }) // 487.1
 */
export function kneeHeightMillimetres(knee: KneeHeight): number {
  if ('measuredMillimetres' in knee) {
    const { measuredMillimetres: measured } = knee;
    if (!within(measured, KNEE_MILLIMETRES)) {
      throw new RangeError(
        `A knee height of ${measured} mm is outside ${KNEE_MILLIMETRES.from} to ${KNEE_MILLIMETRES.to} mm: measure from the floor to the middle of the kneecap, in millimetres.`,
      );
    }
    return measured;
  }
  const { statureCentimetres, ageYears } = knee;
  if (!(ageYears >= ADULT_FROM_YEARS)) {
    throw new RangeError(
      `Knee height is estimated for adults only: measure the knee of an athlete under ${ADULT_FROM_YEARS}.`,
    );
  }
  if (!within(statureCentimetres, STATURE_CENTIMETRES)) {
    throw new RangeError(
      `A stature of ${statureCentimetres} cm is outside ${STATURE_CENTIMETRES.from} to ${STATURE_CENTIMETRES.to} cm: give it in centimetres, or measure the knee.`,
    );
  }
  return KNEE_INTERCEPT_MILLIMETRES + KNEE_PER_STATURE * statureCentimetres * 10;
}

export interface BlockInput {
  knee: KneeHeight;
  /** Thickness of the sole the athlete stands on. Default 0. */
  soleMillimetres?: number;
  /** Top of the handle above the floor. Default that of a competition bell. */
  handleMillimetres?: number;
  /** Thickness of the blocks or plates at hand, each once; none for any height. */
  blocksMillimetres?: number[];
}

export interface BlockHeight {
  /** What is missing under the bell; 0 where the bell is high enough. */
  neededMillimetres: number;
  /** The blocks to stack: the lowest stack that is high enough; empty where none is needed. */
  blocksMillimetres: number[];
  /** How high they stand; null where all blocks at hand are not enough. */
  stackMillimetres: number | null;
}

/** More blocks at hand than this are not searched. */
const MOST_BLOCKS = 12;

/**
 * The stack for the bell: knee height plus sole less handle, rounded up to the blocks at hand.
 * Throws RangeError for what cannot be a measure. Estimated knees are off by 15 mm one time in
 * three.
 */
export function blockHeight(input: BlockInput): BlockHeight {
  const { knee, soleMillimetres = 0, handleMillimetres = COMPETITION_BELL_MILLIMETRES } = input;
  const blocks = input.blocksMillimetres ?? [];
  if (!within(soleMillimetres, { from: 0, to: 80 })) {
    throw new RangeError(`A sole of ${soleMillimetres} mm is outside 0 to 80 mm.`);
  }
  if (!within(handleMillimetres, { from: 100, to: 500 })) {
    throw new RangeError(
      `A handle at ${handleMillimetres} mm is outside 100 to 500 mm: measure from the floor to the top of the handle.`,
    );
  }
  if (blocks.length > MOST_BLOCKS || blocks.some((block) => !within(block, { from: 1, to: 600 }))) {
    throw new RangeError(`Give at most ${MOST_BLOCKS} blocks, each 1 to 600 mm thick.`);
  }
  const missing = kneeHeightMillimetres(knee) + soleMillimetres - handleMillimetres;
  // Tenths are beyond any tape measure.
  const neededMillimetres = Math.max(0, Math.round(missing * 10) / 10);
  if (neededMillimetres === 0) {
    return { neededMillimetres, blocksMillimetres: [], stackMillimetres: 0 };
  }
  if (input.blocksMillimetres === undefined) {
    return { neededMillimetres, blocksMillimetres: [], stackMillimetres: neededMillimetres };
  }
  const stack = lowestStack(blocks, neededMillimetres);
  return stack === null
    ? { neededMillimetres, blocksMillimetres: [], stackMillimetres: null }
    : { neededMillimetres, blocksMillimetres: stack, stackMillimetres: sum(stack) };
}

/** Every choice of blocks is tried; of equally high stacks the one with fewer blocks. */
function lowestStack(blocks: number[], needed: number): number[] | null {
  const stacks = blocks.reduce<number[][]>(
    (found, block) => [...found, ...found.map((stack) => [...stack, block])],
    [[]],
  );
  return stacks
    .filter((stack) => sum(stack) >= needed)
    .reduce<number[] | null>((best, stack) => {
      if (best === null) return stack;
      const higher = sum(stack) - sum(best);
      return higher < 0 || (higher === 0 && stack.length < best.length) ? stack : best;
    }, null);
}

const sum = (numbers: number[]): number => numbers.reduce((total, number) => total + number, 0);

/** False for anything that is no finite number, too. */
const within = (value: number, { from, to }: { from: number; to: number }): boolean =>
  value >= from && value <= to;
