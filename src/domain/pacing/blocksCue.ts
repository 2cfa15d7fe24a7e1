import { numberCounting } from '../hearing/numbers';
import type { BlockHeight } from '../measuring/blockHeight';
import { say } from '../saying';
import type { CueBook, DrillScript, EquipmentId } from '../script';

/** A drill that needs this has its bell raised to knee height. */
const BLOCKS: EquipmentId = 'blocks';

/**
 * What the bell of a drill stands on, in one sentence, whole centimetres: the height where any can
 * be had, else which of the blocks at hand. Undefined for a drill without blocks, and where the
 * height is not known.
 */
export function blocksCue(
  book: CueBook,
  drill: DrillScript,
  blocks: BlockHeight | null,
): string | undefined {
  if (blocks === null || !drill.equipment.includes(BLOCKS)) return undefined;
  const { neededMillimetres, blocksMillimetres: stack, stackMillimetres } = blocks;
  const length = lengthSpoken(book, [neededMillimetres]);
  if (stackMillimetres === 0) return say(book.lines, 'say.bell-on-floor', {});
  if (stackMillimetres === null) return say(book.lines, 'say.bell-too-low', { length });
  if (stack.length === 0) return say(book.lines, 'say.bell-on-height', { length });
  const key = stack.length === 1 ? 'say.bell-on-block' : 'say.bell-on-blocks';
  return say(book.lines, key, { length: lengthSpoken(book, stack) });
}

/** "one centimetre", "twenty one centimetres", "ten, ten and five centimetres". */
function lengthSpoken(book: CueBook, millimetres: number[]): string {
  const { numbers } = book.vocabulary;
  const centimetres = millimetres.map((each) => Math.max(1, Math.round(each / 10)));
  const words = centimetres.map((each) => numberCounting(numbers, each));
  const [last = '', ...before] = words.toReversed();
  const number =
    before.length === 0
      ? last
      : `${before.toReversed().join(', ')} ${numbers.and[0] ?? ''} ${last}`;
  const isOne = centimetres.length === 1 && centimetres[0] === 1;
  return say(book.lines, isOne ? 'say.centimetre' : 'say.centimetres', { number });
}
