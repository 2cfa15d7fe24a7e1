/**
 * What a readiness sheet says of a session, the same in every form it is written in: text, HTML, a
 * spreadsheet, FHIR. All of it is worked out from the log; nobody is named by it.
 */
import type { Area, AreaOutcome, Side, Way } from '../../areas';
import { counting, saidFindings, type SaidFinding } from '../../deciding/corrected';
import type { FaultId } from '../../faults';
import type { AngleTool, Load, PainKind, RedFlag, Result } from '../../findings';
import type { EndReason, Entry, EntryOf } from '../../log';
import { say } from '../../saying';
import type { CueBook, PromptId } from '../../script';
import { routineBegun } from '../../handover/progressDay';
import { reportOf } from '../report';
import { areaName, liftName, titled } from '../wording';
import { initialsOf, plain } from './plain';

/** An id with its words in the language of the session. */
export interface Worded<T> {
  is: T;
  words: string;
}

/** One finding as it counts, one a side. */
export interface SheetFinding {
  /** Id of its entry; with the side where one was said of both. */
  id: string;
  area: Worded<Area> | null;
  prompt: PromptId;
  /** "The bell hinge"; says so where a check was tested again. */
  what: string;
  isRetest: boolean;
  side: Worded<Side | 'both'> | null;
  result: Worded<Result>;
  faults: Worded<FaultId>[];
  angle: { degrees: number; tool: Worded<AngleTool> } | null;
  load: Worded<Load> | null;
  /** 0 to 10; `unanswered` where pain was told without a number; null where none was. */
  pain: number | 'unanswered' | null;
  painKind: Worded<PainKind | 'unanswered'> | null;
  /** It was put right after the session. */
  isCorrected: boolean;
}

export interface SheetArea {
  area: Worded<Area>;
  outcome: Worded<AreaOutcome>;
  sentence: string;
  reasons: string[];
}

export interface SheetHomework {
  area: Worded<Area>;
  name: string;
  dose: string;
  /** Why it, with what, and what to mind; a sentence each. */
  details: string[];
}

export interface ReadinessSheet {
  language: string;
  /** Of the session, as its entries are named by. */
  session: string;
  /** Initials, or the name where it was asked for; null where nobody was named. */
  who: string | null;
  /** ISO 8601 with offset. */
  startedAt: string;
  routine: Worded<string>;
  way: Worded<Way>;
  reportedBy: 'coach' | 'athlete';
  /** `open`: the log has no end. */
  ended: Worded<EndReason | 'open'>;
  /** Something was put right after the session. */
  isCorrected: boolean;
  redFlags: Worded<RedFlag>[];
  areas: SheetArea[];
  findings: SheetFinding[];
  /** What the angles say, a sentence each, by check. */
  measured: { check: string; told: string[] }[];
  liftsReady: Worded<string>[];
  /** A sentence each. */
  liftsMissing: string[];
  homework: SheetHomework[];
  /** Why an area that is worked at has none. */
  noHomework: string[];
  next: { date: string | null; because: string };
  cautions: string[];
  /** That it is no diagnosis, and that the ladders are practice. */
  notices: string[];
  notes: string[];
  /** Of the figures behind the angles. */
  sources: string[];
  /** The words of titles and columns. */
  title: (name: string) => string;
}

/** What the log does not know. */
export interface SheetAsked {
  /** The athlete's name; nobody is named where it is left out. */
  name?: string | undefined;
  /** Default `initials`. */
  nameAs?: 'initials' | 'whole' | undefined;
  /** What the coach noted beside the log. */
  notes?: readonly string[];
}

const NAME_LETTERS = 120;
const NOTE_LETTERS = 2000;

/**
 * The sheet of a session. Throws where the log has no start or its routine is not in the book.
 *
 * @example textSheet(readinessSheet(book, entries, { name: 'Quib Marn' }))
 */
export function readinessSheet(
  book: CueBook,
  entries: readonly Entry[],
  { name, nameAs = 'initials', notes = [] }: SheetAsked = {},
): ReadinessSheet {
  const report = reportOf(book, entries);
  const started = entries.find((entry) => entry.type === 'started');
  const end = entries.findLast((entry) => entry.type === 'ended')?.reason ?? 'open';
  const words = (key: string) => say(book.lines, `shown.${key}`, {});
  const title = (key: string) => words(`sheet-${key}`);
  const areaOf = (area: Area): Worded<Area> => ({
    is: area,
    words: titled(areaName(book, area)),
  });
  const { routine = '', way = 'hands-on', startedAt = '', language = '' } = started ?? {};
  return {
    language,
    session: sessionOf(started),
    who: whoOf(name, nameAs),
    startedAt,
    routine: { is: routine, words: (started && routineBegun(book, started)?.name) ?? routine },
    way: { is: way, words: title(`way-${way}`) },
    reportedBy: report.reportedBy,
    ended: { is: end, words: title(`end-${end}`) },
    isCorrected: entries.some(({ type }) => type === 'corrected'),
    redFlags: entries
      .filter((entry) => entry.type === 'red-flag')
      .map(({ flag }) => ({ is: flag, words: book.vocabulary.redFlags[flag].readback })),
    areas: report.areas.map(({ area, outcome, sentence, reasons }) => ({
      area: areaOf(area),
      outcome: { is: outcome, words: words(`outcome-${outcome}`) },
      sentence,
      reasons,
    })),
    findings: sheetFindings(book, entries, areaOf),
    measured: report.measured
      .filter(({ told }) => told.length > 0)
      .map(({ check, told }) => ({
        check: titled(book.checks[check]?.name ?? check),
        told: told.map(({ what, says }) => [what, says].filter(Boolean).join(' ')),
      })),
    liftsReady: report.liftsReady.map((lift) => ({
      is: lift,
      words: titled(liftName(book, lift)),
    })),
    liftsMissing: report.liftsMissing.map(({ sentence }) => sentence),
    homework: report.homework.map((task) => ({
      area: areaOf(task.area),
      name: titled(task.name),
      dose: task.dose,
      details: [
        task.because,
        task.loadNote ?? '',
        task.loadGuidance,
        task.caution,
        task.coachNote ?? '',
      ].filter((detail) => detail !== ''),
    })),
    noHomework: report.noHomework.map(({ because }) => because),
    next: { date: report.nextDate, because: report.nextVisit.because },
    cautions: report.cautions,
    notices: [title('no-diagnosis'), title('practice')],
    notes: notes.map((note) => plain(note, NOTE_LETTERS)).filter((note) => note !== ''),
    sources: [...new Set(report.measured.flatMap(({ sources }) => sources))],
    title,
  };
}

/** Entries are named `session:device:seq`. */
const sessionOf = (started: EntryOf<'started'> | undefined): string =>
  started?.id.split(':').slice(0, -2).join(':') ?? '';

function whoOf(name: string | undefined, nameAs: 'initials' | 'whole'): string | null {
  const who =
    nameAs === 'whole' ? plain(name ?? '', NAME_LETTERS) : initialsOf(name ?? '').slice(0, 40);
  return who === '' ? null : who;
}

function sheetFindings(
  book: CueBook,
  entries: readonly Entry[],
  areaOf: (area: Area) => Worded<Area>,
): SheetFinding[] {
  const climbed = new Set<Area>();
  const tested = new Set<string>();
  return saidFindings(entries).flatMap((one) => {
    const { check, drill, prompt } = one.finding;
    const area = (book.checks[check ?? ''] ?? book.drills[drill ?? ''])?.area ?? null;
    if (drill !== null && area !== null) climbed.add(area);
    // A check that had to wait at first is tested once, after the ladder.
    const isRetest = area !== null && check !== null && climbed.has(area) && tested.has(prompt);
    if (area !== null && !climbed.has(area)) tested.add(prompt);
    return [sheetFinding(book, one, area === null ? null : areaOf(area), isRetest)];
  });
}

function sheetFinding(
  book: CueBook,
  one: SaidFinding,
  area: Worded<Area> | null,
  isRetest: boolean,
): SheetFinding {
  const { finding, of, corrections } = one;
  const words = (key: string) => say(book.lines, `shown.${key}`, {});
  const { side, result, faults, angleDegrees, tool, pain, painKind, load } = counting(one);
  const id = finding.check ?? finding.drill ?? finding.prompt;
  const name = titled(book.checks[id]?.name ?? book.drills[id]?.name ?? plain(id, NAME_LETTERS));
  const isLoaded = finding.drill !== null && load !== null;
  return {
    id: of === null ? finding.id : `${finding.id}/${of}`,
    area,
    prompt: finding.prompt,
    what: isRetest ? say(book.lines, 'shown.sheet-retest', { what: name }) : name,
    isRetest,
    side: side === null ? null : { is: side, words: words(`side-${side}`) },
    result: { is: result, words: words(`result-${result}`) },
    faults: faults.map((fault) => ({
      is: fault,
      words: book.faults[fault]?.readback ?? plain(fault, NAME_LETTERS),
    })),
    angle:
      angleDegrees === null
        ? null
        : {
            degrees: angleDegrees,
            tool: { is: tool ?? 'eye', words: words(`tool-${tool ?? 'eye'}`) },
          },
    load: isLoaded ? { is: load, words: words(`load-${load}`) } : null,
    pain,
    painKind: painKind === null ? null : { is: painKind, words: words(`pain-${painKind}`) },
    isCorrected: corrections.length > 0,
  };
}
