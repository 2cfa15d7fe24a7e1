import { FIGURES, valueOf } from './figures';
import { kneeHeight, type Knee } from './kneeHeight';
import { BELL_HANDLE, BLOCK, SOLE } from './length';
import { within } from './within';

/** What the block height is worked out from, millimetres. */
export interface BlockInput {
  knee: Knee;
  /** Thickness of the sole the athlete stands on. Default 0. */
  soleMillimetres?: number | undefined;
  /** Top of the handle above the floor. Default that of a competition bell. */
  handleMillimetres?: number | undefined;
  /** Thickness of the blocks or plates at hand, each once; left out where any height can be had. */
  blocksMillimetres?: readonly number[] | undefined;
}

export interface BlockHeight {
  /** What is missing under the bell; 0 where the bell is high enough. */
  neededMillimetres: number;
  /** Standard error of `neededMillimetres`; 0 where the knee was measured. */
  errorMillimetres: number;
  /** The blocks to stack, thickest first; empty where none is needed, or none is known. */
  blocksMillimetres: number[];
  /** How high they stand; null where all blocks at hand together are not enough. */
  stackMillimetres: number | null;
}

/** More blocks at hand than this are not searched. */
export const MOST_BLOCKS = 12;

/**
 * The stack for the bell hinge, that the top of the handle stands at knee height: knee height plus
 * sole less handle, rounded up to the lowest stack of the blocks at hand; none where that is 0 or
 * less. Throws RangeError for what cannot be a measure.
 *
 * @example blockHeight({ knee: { measuredMillimetres: 480 }, blocksMillimetres: [100, 150, 50] })
 */
export function blockHeight(input: BlockInput): BlockHeight {
  const { knee, soleMillimetres = 0 } = input;
  const { handleMillimetres = valueOf(FIGURES.competitionBellMillimetres) } = input;
  const blocks = input.blocksMillimetres;
  if (!within(soleMillimetres, SOLE)) {
    throw new RangeError(
      `A sole of ${soleMillimetres} mm is outside ${SOLE.from} to ${SOLE.to} mm.`,
    );
  }
  if (!within(handleMillimetres, BELL_HANDLE)) {
    throw new RangeError(
      `A handle at ${handleMillimetres} mm is outside ${BELL_HANDLE.from} to ${BELL_HANDLE.to} mm: measure from the floor to the top of the handle.`,
    );
  }
  if (blocks && (blocks.length > MOST_BLOCKS || !blocks.every((block) => within(block, BLOCK)))) {
    throw new RangeError(
      `Give at most ${MOST_BLOCKS} blocks, each ${BLOCK.from} to ${BLOCK.to} mm thick.`,
    );
  }
  const { millimetres, errorMillimetres } = kneeHeight(knee);
  const missing = millimetres + soleMillimetres - handleMillimetres;
  // Tenths are beyond any tape measure.
  const neededMillimetres = Math.max(0, Math.round(missing * 10) / 10);
  const stack =
    neededMillimetres === 0
      ? []
      : blocks === undefined
        ? null
        : lowestStack(blocks, neededMillimetres);
  const free = blocks === undefined ? neededMillimetres : null;
  return {
    neededMillimetres,
    errorMillimetres,
    blocksMillimetres: stack ?? [],
    stackMillimetres: stack === null ? free : sum(stack),
  };
}

/** Every choice of blocks is tried; of equally high stacks the one with fewer blocks. */
function lowestStack(blocks: readonly number[], needed: number): number[] | null {
  const stacks = [...blocks]
    .sort((one, other) => other - one)
    .reduce<number[][]>(
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

/** To a tenth, or thicknesses in inches would not add up to what they are. */
const sum = (numbers: readonly number[]): number =>
  Math.round(numbers.reduce((total, number) => total + number, 0) * 10) / 10;
