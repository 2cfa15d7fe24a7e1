/** What was found, in words: the same in the list, in the timeline and in what is asked about it. */
import type { Said } from '../../domain/deciding/corrected';
import type { CueBook } from '../../domain/script';
import { LOAD_WORDS, PAIN_KIND_WORDS, RESULT_WORDS, SIDE_WORDS } from '../words';

type Found = Omit<Said, 'load'>;

/** Faults, angle and pain: "knees forward; 140° by eye; pain 4 of 10, known". */
export function detailOf(book: CueBook, found: Found): string {
  const { faults, angleDegrees, tool } = found;
  const named = faults.map((id) => book.faults[id]?.readback ?? id).join(', ');
  const angle = angleDegrees === null ? '' : `${angleDegrees}° by ${toolOf(tool)}`;
  return [named, angle, painWords(found)].filter((part) => part !== '').join('; ');
}

/** "Left: lost (ribs flared; 140° by eye)". */
export function saidWords(book: CueBook, said: Found & { load?: Said['load'] }): string {
  const detail = detailOf(book, said);
  const load = said.load != null && said.load !== 'as-written' ? LOAD_WORDS[said.load] : '';
  const inside = [detail, load].filter((part) => part !== '').join('; ');
  const side = said.side === null ? '' : `${SIDE_WORDS[said.side].toLowerCase()}, `;
  return `${side}${RESULT_WORDS[said.result].toLowerCase()}${inside === '' ? '' : ` (${inside})`}`;
}

const toolOf = (tool: Found['tool']): string => (tool ?? 'eye').replace('-', ' ');

/** "pain 4 of 10, known"; a number that was asked for and not given is said to be missing. */
function painWords({ result, pain, painKind }: Found): string {
  const kind =
    painKind === null || painKind === 'unanswered'
      ? ''
      : `, ${PAIN_KIND_WORDS[painKind].toLowerCase()}`;
  if (pain === 'unanswered') return `no number given${kind}`;
  if (pain !== null) return `pain ${pain} of 10${kind}`;
  return result === 'pain' ? `no number given${kind}` : '';
}
