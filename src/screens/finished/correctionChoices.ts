/** What may be chosen in a correction: the answers of the run screen. */
import type { SaidFinding } from '../../domain/deciding/corrected';
import type { CorrectionFields } from '../../domain/deciding/correction';
import type { FaultId } from '../../domain/faults';
import type { Load } from '../../domain/findings';
import { counting } from '../../domain/deciding/corrected';
import type { CueBook } from '../../domain/script';
import { faultsAt } from '../run/replies';
import { PAIN_KIND_WORDS } from '../words';

/** Faults of that check or of the drill's area, and those that stand in the record. */
export const faultChoices = (book: CueBook, one: SaidFinding): FaultId[] => [
  ...new Set([
    ...faultsAt(book, one.finding.prompt).map(({ id }) => id),
    ...one.first.faults,
    ...counting(one).faults,
  ]),
];

/** How a drill can be done, and how it was. */
export function loadChoices(book: CueBook, one: SaidFinding): Load[] {
  const drill = book.drills[one.finding.drill ?? ''];
  const loads: (Load | null | undefined)[] = [
    'as-written',
    drill?.easier?.load,
    drill?.heavier == null ? null : 'heavier',
    one.first.load,
    counting(one).load,
  ];
  return [...new Set(loads.filter((load) => load != null))];
}

export const PAINS: readonly (readonly [string, string])[] = [
  ['', 'None was said'],
  ...[0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map((pain) => [String(pain), String(pain)] as const),
  ['unanswered', 'Pain, but no number'],
];

export const KINDS: readonly (readonly [CorrectionFields['kind'], string])[] = [
  ['', 'None was said'],
  ['known', PAIN_KIND_WORDS.known],
  ['new', PAIN_KIND_WORDS.new],
  ['sharp', PAIN_KIND_WORDS.sharp],
  ['unanswered', 'Nobody knows (counts as new)'],
];
