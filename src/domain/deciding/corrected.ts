/** Findings that were put right after the session: which count, and as what (RULES.md, chapter 14). */
import type { Side } from '../areas';
import type { Finding, Load, PainKind } from '../findings';
import type { Entry, EntryOf } from '../log';
import type { OpenPain } from './course';
import { live, toldOf, type FindingTold } from './reading';

/** What a finding says, with its pain settled; what a correction replaces. */
export interface Said extends Omit<Finding, 'pain'> {
  /** 0 to 10, `unanswered` where there was pain without a number, null where none was said. */
  pain: number | 'unanswered' | null;
  painKind: PainKind | 'unanswered' | null;
  load: Load | null;
}

/** A finding, or one side of it where it was said of both, with everything that was made of it. */
export interface SaidFinding {
  finding: EntryOf<'finding'>;
  /** Which side of a finding that was said of both; null: all of it. */
  of: Side | null;
  /** As it was said. */
  first: Said;
  /** Oldest first; the last one counts. */
  corrections: EntryOf<'corrected'>[];
}

const SIDES: readonly Side[] = ['left', 'right'];

/** Every finding that counts, in order; one that was said of both is two. */
export function saidFindings(entries: readonly Entry[]): SaidFinding[] {
  const corrections = entries.filter((entry) => entry.type === 'corrected');
  const unanswered = unansweredIn(entries);
  return toldOf(entries).flatMap(({ painKind, ...finding }) => {
    const isUnanswered = unanswered.has(finding.id) && finding.pain === null;
    const pain = isUnanswered ? 'unanswered' : finding.pain;
    const { side, result, faults, angleDegrees, tool, load } = finding;
    const first: Said = { side, result, faults, angleDegrees, tool, pain, painKind, load };
    const parts = side === 'both' ? SIDES : [null];
    return parts.map((of) => ({
      finding,
      of,
      first: of === null ? first : { ...first, side: of },
      corrections: corrections.filter((one) => one.entry === finding.id && one.of === of),
    }));
  });
}

/** Findings of which a number was meant or asked for and not given. */
function unansweredIn(entries: readonly Entry[]): Set<string> {
  const ids = new Set<string>();
  let last: EntryOf<'finding'> | null = null;
  for (const entry of live(entries)) {
    if (entry.type === 'finding') {
      last = entry;
      if (entry.result === 'pain' || entry.asksPain === true) ids.add(entry.id);
    } else if (entry.type === 'pain-number' && entry.pain === 'unanswered' && last !== null) {
      ids.add(last.id);
    }
  }
  return ids;
}

/** What a correction says. */
export const saidIn = ({
  side,
  result,
  faults,
  angleDegrees,
  tool,
  pain,
  painKind,
  load,
}: EntryOf<'corrected'>): Said => ({
  ...{ side, result, faults, angleDegrees, tool, pain, painKind, load },
});

/** As it counts now. */
export const counting = ({ first, corrections }: SaidFinding): Said => {
  const last = corrections.at(-1);
  return last === undefined ? first : saidIn(last);
};

/** Whether it counts as something else than was said: corrected back, it does not. */
export const isOther = (one: SaidFinding): boolean => !isSame(one.first, counting(one));

/** Whether two findings say the same; the order of faults says nothing. */
export function isSame(one: Said, other: Said): boolean {
  const plain = ({ faults, ...rest }: Said) =>
    JSON.stringify([
      ...[[...faults].sort(), rest.side, rest.result, rest.angleDegrees, rest.pain],
      ...[rest.angleDegrees === null ? null : rest.tool, rest.painKind, rest.load],
    ]);
  return plain(one) === plain(other);
}

/** The pain of what was said, as the rules weigh it: a correction leaves nothing to be asked. */
export function painOf({ result, pain, painKind }: Said): Omit<OpenPain, 'finding'> {
  const said = result === 'pain' || pain !== null || painKind !== null;
  if (!said) return { said, number: null, kind: null };
  return {
    said,
    number: pain ?? 'unanswered',
    kind: painKind ?? (pain === 0 ? null : 'unanswered'),
  };
}

/**
 * Findings that count, in order, each with the number (0 to 10) and the kind of its pain, and as
 * it was corrected. A number that stayed unanswered leaves `pain` null.
 */
export function findingsOf(entries: readonly Entry[]): FindingTold[] {
  if (!entries.some(({ type }) => type === 'corrected')) return toldOf(entries);
  const said = saidFindings(entries);
  return toldOf(entries).flatMap((told) => {
    const parts = said.filter(({ finding }) => finding.id === told.id);
    return parts.some(isOther) ? parts.map((part) => correctedTold(told, part)) : [told];
  });
}

function correctedTold(told: FindingTold, part: SaidFinding): FindingTold {
  const { pain, painKind, ...said } = counting(part);
  const isUnanswered = pain === 'unanswered';
  const kind = painKind ?? (isUnanswered ? 'unanswered' : null);
  return { ...told, ...said, pain: isUnanswered ? null : pain, painKind: kind, asksPain: false };
}
