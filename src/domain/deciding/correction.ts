/** Putting a finding right after its session: what may be said of it, and what is then put on record. */
import type { Side } from '../areas';
import type { FaultId } from '../faults';
import type { AngleTool, Load, PainKind, Result } from '../findings';
import { ANGLE_DEGREES } from '../hearing/judging';
import type { Entry, EntryOf, Fact, SessionSettings, Source } from '../log';
import type { CueBook } from '../script';
import { counting, isSame, painOf, saidFindings, type Said, type SaidFinding } from './corrected';
import { areaStates, nextStep } from './deciding';
import { weigh, type PainVerdict } from './hurting';

/** What is chosen and typed in the form of a correction; empty where nothing is. */
export interface CorrectionFields {
  side: Side | 'both' | null;
  result: Result;
  faults: FaultId[];
  angle: string;
  /** A number from 0 to 10, or `unanswered`. */
  pain: string;
  kind: PainKind | 'unanswered' | '';
  load: Load | null;
}

export type CorrectionField = 'result' | 'faults' | 'angle' | 'pain' | 'kind';

export interface CorrectionProblem {
  field: CorrectionField;
  /** What is wrong and what to do. */
  say: string;
}

/** One side of a finding, and what it is to count as. */
export interface Correction {
  finding: EntryOf<'finding'>;
  of: Side | null;
  said: Said;
}

/** The form filled with what counts now. */
export const fieldsOf = ({
  side,
  result,
  faults,
  angleDegrees,
  pain,
  painKind,
  load,
}: Said): CorrectionFields => ({
  ...{ side, result, faults, load },
  angle: angleDegrees === null ? '' : String(angleDegrees),
  pain: pain === null ? '' : String(pain),
  kind: painKind ?? '',
});

/**
 * What the form says, or every problem with it. What stands in the record already is no problem,
 * since it was asked about when it was said. `tool`: what a new angle was read with.
 */
export function readCorrection(
  book: CueBook,
  settings: SessionSettings,
  one: SaidFinding,
  fields: CorrectionFields,
  tool: AngleTool,
): { said: Said; problems: [] } | { said: null; problems: CorrectionProblem[] } {
  const { side, result, faults, load } = fields;
  const before = counting(one);
  const isTyped = fields.angle.trim() !== '';
  const angleDegrees = isTyped ? angleIn(fields.angle) : null;
  const pain = numberIn(fields.pain);
  // A zero has no kind, unless it is called new or sharp (rule 1.12).
  const isPlainZero = pain === 0 && (fields.kind === 'known' || fields.kind === 'unanswered');
  const said: Said = {
    ...{ side, result, faults, load, angleDegrees, pain },
    tool: angleDegrees === null ? null : (before.tool ?? tool),
    painKind: fields.kind === '' || isPlainZero ? null : fields.kind,
  };
  const problems = isSame(before, said)
    ? []
    : [...againstItself(book, settings, said), ...ofPain(settings, said)];
  if (isTyped && angleDegrees === null) problems.push(NO_ANGLE);
  return problems.length > 0 ? { said: null, problems } : { said, problems: [] };
}

const { least, most } = ANGLE_DEGREES;
const NO_ANGLE: CorrectionProblem = {
  field: 'angle',
  say: `An angle is a whole number from ${least} to ${most} degrees, such as 140.`,
};

/** Degrees as typed; null where it is no angle that a person could have. */
function angleIn(text: string): number | null {
  const degrees = Number(/^(\d{1,3})\s*(?:°|deg(?:rees)?)?$/i.exec(text.trim())?.[1] ?? NaN);
  return degrees >= least && degrees <= most ? degrees : null;
}

const numberIn = (pain: string): Said['pain'] =>
  pain === '' ? null : pain === 'unanswered' ? pain : Number(pain);

/** What the hearing would have asked about (domain/hearing/judging.ts). */
function againstItself(
  book: CueBook,
  { passLineDegrees }: SessionSettings,
  { result, faults, angleDegrees, pain, painKind }: Said,
): CorrectionProblem[] {
  const named = (kind: 'position' | 'range') =>
    faults
      .flatMap((id) => book.faults[id] ?? [])
      .filter((fault) => fault.kind === kind)
      .map(({ readback }) => `“${readback}”`)
      .join(', ');
  const [position, range] = [named('position'), named('range')];
  const problems: CorrectionProblem[] = [];
  const wrong = (field: CorrectionField, say: string) => problems.push({ field, say });
  if (position !== '' && (result === 'held' || result === 'short')) {
    const was = result === 'held' ? 'held' : 'short';
    wrong(
      'faults',
      `${position}: the position was given up, so this is lost and not ${was}. Choose Lost, or take that fault away.`,
    );
  } else if (range !== '' && result === 'held') {
    wrong(
      'faults',
      `${range}: the range was not reached, so this is short and not held. Choose Short, or take that fault away.`,
    );
  }
  if (result === 'held' && angleDegrees !== null && angleDegrees < passLineDegrees) {
    wrong(
      'angle',
      `${angleDegrees}° is a pass under the pass line of ${passLineDegrees}°. Choose Short or Lost, or mend the angle.`,
    );
  }
  const isEmpty = faults.length === 0 && angleDegrees === null && pain === null && !painKind;
  if (result === 'not-tested' && !isEmpty) {
    wrong(
      'result',
      'What was not tested has no fault, angle or pain. Take those away, or choose what was seen.',
    );
  }
  return problems;
}

/** Chapter 1: pain has a number and a kind, and more than goes on is the result. */
function ofPain(settings: SessionSettings, said: Said): CorrectionProblem[] {
  const { result, pain, painKind } = said;
  const { painGoesOnUpTo, painRefersAbove } = settings;
  if (pain === null) {
    const isMeant = result === 'pain' || painKind !== null;
    const say = 'How much did it hurt? Choose a number, or “No number was given”.';
    return isMeant ? [{ field: 'pain', say }] : [];
  }
  if (pain === 0) {
    const say = '0 is no pain. Choose what was seen, or a number from 1.';
    return result === 'pain' ? [{ field: 'pain', say }] : [];
  }
  const isMuch = pain === 'unanswered' || pain > painGoesOnUpTo;
  if (isMuch && result !== 'pain') {
    const how = pain === 'unanswered' ? 'Pain without a number' : `Pain ${pain}`;
    const say = `${how} is more than goes on (${painGoesOnUpTo}), so the result is Pain.`;
    return [{ field: 'result', say }];
  }
  const isAsked = pain !== 'unanswered' && pain <= painRefersAbove;
  const say = 'Which kind of pain? It decides what comes next.';
  return isAsked && painKind === null ? [{ field: 'kind', say }] : [];
}

const WORSE: readonly PainVerdict[] = [
  'none',
  'goes-on',
  'kind',
  'number',
  'back',
  'over',
  'refer',
];

/** Whether there is less pain in it, or pain of a milder kind: that is asked about once more. */
export function takesPainAway(settings: SessionSettings, before: Said, now: Said): boolean {
  const rank = (said: Said) => WORSE.indexOf(weigh(settings, painOf(said)));
  const much = ({ pain }: Said) => (pain === 'unanswered' ? 11 : (pain ?? 0));
  return rank(now) < rank(before) || much(now) < much(before);
}

const BY_HAND: Source = { by: 'hand', text: '', confidence: 1 };

/**
 * What goes on record: the correction, and the outcome of each area that it changes. Throws where
 * the finding is not in the log, or the session has not ended (rule 14.9).
 */
export function correctionFacts(
  book: CueBook,
  log: readonly Entry[],
  { finding, of, said }: Correction,
  correctedAt: string,
): Fact[] {
  const isThere = saidFindings(log).some((one) => one.finding.id === finding.id && one.of === of);
  if (!isThere) throw new Error(`There is no finding ${finding.id} in this session to correct.`);
  if (!log.some(({ type }) => type === 'ended')) {
    throw new Error('This session has not ended: end it before anything is corrected.');
  }
  const { id: entry, prompt, check, drill } = finding;
  const fact: Fact = {
    ...{ type: 'corrected', entry, of, prompt, check, drill },
    ...said,
    correctedAt,
    source: BY_HAND,
  };
  const made: Entry = { ...fact, id: `${entry}:corrected`, atSeconds: log.at(-1)?.atSeconds ?? 0 };
  const before = areaStates(book, log);
  const changed = areaStates(book, [...log, made]).filter((now) => {
    const was = before.find(({ area }) => area === now.area);
    return was?.outcome !== now.outcome || was.rung !== now.rung;
  });
  return [fact, ...changed.map(outcomeFact)];
}

const outcomeFact = ({ area, outcome, rung }: ReturnType<typeof areaStates>[number]): Fact => ({
  ...{ type: 'outcome', area, outcome, rung },
});

/** What closes a session that was cut off: outcomes that were not told yet, and its end. */
export function closingFacts(book: CueBook, log: readonly Entry[]): Fact[] {
  const { step } = nextStep(book, log);
  const told = log.flatMap((entry) => (entry.type === 'outcome' ? [entry.area] : []));
  const open = areaStates(book, log).filter(({ area }) => !told.includes(area));
  const reason = step.do === 'end' ? step.reason : 'stopped';
  return [...open.map(outcomeFact), { type: 'ended', reason }];
}
