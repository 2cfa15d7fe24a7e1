import type { Area, AreaOutcome, Way } from '../domain/areas';
import { blocksFor, type Athlete } from '../domain/athlete';
import { isHalted, isPaused, openQuestion } from '../domain/deciding/deciding';
import { openOffer } from '../domain/deciding/offering';
import type { Decision } from '../domain/deciding/step';
import type { AngleTool } from '../domain/findings';
import { eitherReadback } from '../domain/hearing/either';
import { bothRead, readbackOf } from '../domain/hearing/readback';
import type { HomeworkDay } from '../domain/handover/progressDay';
import type { Reading } from '../domain/hearing/reply';
import type { EndReason, Entry, EntryOf, Fact, SessionSettings, Source } from '../domain/log';
import type { BlockHeight } from '../domain/measuring/blockHeight';
import type { CueBook, DrillId, EquipmentId, RoutineId } from '../domain/script';
import type { Ports } from '../ports';
import type { Place } from './attemptMachine';
import { entriesFor, type Logbook } from './logbook';
import { countsFrom, momentAt } from './startedAt';
import { createStage, type Stage, type StageReport } from './stage';

export interface SessionInput {
  book: CueBook;
  ports: Ports;
  /** How long a text takes to say, in seconds. */
  secondsOf: (text: string) => number;
  /** Names the session and the device in entry ids. */
  session: string;
  device: string;
  routine: RoutineId;
  way: Way;
  settings: SessionSettings;
  /** Whose session it is, by id; nobody named where left out. */
  person?: string | undefined;
  /** Equipment that is not in this gym. */
  missing?: EquipmentId[] | undefined;
  /** Drills that the coach allowed alone. */
  allowedAlone?: DrillId[] | undefined;
  /** What is known of the athlete and the bell; it must be such that `blocksFor` takes it. */
  athlete?: Athlete | undefined;
  /** What spoken angles are read with. Default by eye. */
  angleTool?: AngleTool | undefined;
  /** The word after which alone replies count; none where left out. */
  callWord?: string | undefined;
  /** What was handed over and is done now (domain/handover/progress.ts); none where left out. */
  homework?: HomeworkDay | undefined;
  /** On a squad day others are still to come: "next person" leaves the session. Default false. */
  othersWait?: boolean | undefined;
  /** Minutes that the clock on the wall is east of UTC. Default 0. */
  utcOffsetMinutes?: number | undefined;
  /** Entries of a session to go on with; empty begins a new one. */
  log: Entry[];
}

export interface SessionContext {
  book: CueBook;
  ports: Ports;
  stage: Stage;
  logbook: Logbook;
  settings: SessionSettings;
  /** What spoken angles are read with. */
  angleTool: AngleTool;
  /** The word after which alone replies count, or null. */
  callWord: string | null;
  /** Somebody else is still to come, for whom this session may be left. */
  othersWait: boolean;
  /** What the bell stands on; null where it is not known. */
  blocks: BlockHeight | null;
  log: Entry[];
  /** Entries that must be durable before they are acknowledged. */
  unstored: Entry[];
  /** Entries for the record alone; nobody waits for them. */
  unkept: Entry[];
  decision: Decision | null;
  /** What was decided and told last, so that a pause or an aside does not tell it again. */
  told: Decision | null;
  /** Something that decides was added to the log after `decision`. */
  isStale: boolean;
  /** When the question that was noted last opened, milliseconds. */
  openedAtMilliseconds: number | null;
  /** Outcomes said already; undo can take one back. */
  outcomes: Partial<Record<Area, AreaOutcome>>;
  /** Where the current attempt stands, for going on after an interruption or a reload. */
  place: Place;
  /** A result spoken before its question opened. */
  kept: Reading | null;
  /** That the phone as a level is lost was said. */
  isLevelLossTold: boolean;
  /** What waits for a yes or a no. */
  offered: Reading | null;
  /** Said before the next decision: what was understood, or undone. */
  readback: string;
  /** Texts of the state that only speaks. */
  texts: string[];
  endReason: EndReason | null;
}

/** The context of a new session, or of one that goes on where its log ends. */
export function openContext(
  input: SessionInput,
  report: (report: StageReport) => void,
): SessionContext {
  const { book, ports, session, device, log } = input;
  const started = log.find((entry): entry is EntryOf<'started'> => entry.type === 'started');
  const now = ports.clock.now();
  const begun = started ?? beginning(input, now);
  const startedAtMilliseconds =
    started === undefined ? now : countsFrom(started.startedAt, log, now);
  const logbook: Logbook = { session, device, startedAtMilliseconds };
  const context: SessionContext = {
    book,
    ports,
    stage: createStage(book, ports, input.secondsOf, startedAtMilliseconds, report),
    logbook,
    settings: begun.settings,
    angleTool: begun.angleTool ?? 'eye',
    callWord: begun.callWord ?? null,
    othersWait: input.othersWait ?? false,
    blocks: blocksFor(begun.athlete ?? {}),
    log,
    unstored: [],
    unkept: [],
    decision: null,
    told: null,
    isStale: false,
    openedAtMilliseconds: null,
    outcomes: {},
    place: placeAfter(log, startedAtMilliseconds),
    kept: keptAfter(book, log),
    isLevelLossTold: false,
    offered: null,
    readback: '',
    texts: [],
    endReason: null,
  };
  if (started !== undefined) return { ...context, ...timeAway(context) };
  return { ...context, ...adding(context, [begun]) };
}

/** What the log begins with; what is not known has no field in it. */
function beginning(input: SessionInput, now: number): Extract<Fact, { type: 'started' }> {
  const { book, routine, way, settings, person, athlete, angleTool, callWord, homework } = input;
  const { missing = [], allowedAlone = [] } = input;
  const blocks = athlete === undefined ? null : blocksFor(athlete);
  return {
    type: 'started',
    routine,
    language: book.language,
    way,
    startedAt: momentAt(now, input.utcOffsetMinutes ?? 0),
    settings,
    ...(person !== undefined && { person }),
    ...(missing.length > 0 && { missing }),
    ...(allowedAlone.length > 0 && { allowedAlone }),
    ...(athlete !== undefined && { athlete }),
    ...(angleTool !== undefined && { angleTool }),
    ...(callWord !== undefined && { callWord }),
    ...(homework !== undefined && { homework }),
    ...(blocks !== null && { blockHeightMillimetres: wholeOf(blocks.stackMillimetres) }),
  };
}

/** Whole millimetres: a bell is not set up more finely. */
const wholeOf = (millimetres: number | null): number | null =>
  millimetres === null ? null : Math.round(millimetres);

/** Time away is no time of work: from the last entry to now is put on record as a pause. */
function timeAway(context: SessionContext): Partial<SessionContext> {
  const { logbook, log, ports } = context;
  const last = log.at(-1);
  if (last === undefined || isHalted(log)) return {};
  // Killed between the two: nobody asked for that pause.
  const isHalfNoted = last.type === 'paused' && last.atSeconds === log.at(-2)?.atSeconds;
  if (isPaused(log) && !isHalfNoted) return {};
  const source: Source = { by: 'hand', text: '', confidence: 1 };
  const leftAt = logbook.startedAtMilliseconds + last.atSeconds * 1000;
  const left = isHalfNoted ? [] : entriesFor(logbook, log, [{ type: 'paused', source }], leftAt);
  const stood = [...log, ...left];
  const back = entriesFor(logbook, stood, [{ type: 'resumed', source }], ports.clock.now());
  return { log: [...stood, ...back], unkept: [...left, ...back] };
}

/** What was offered when the session was interrupted is offered again. */
function keptAfter(book: CueBook, log: Entry[]): Reading | null {
  const offer = openOffer(log);
  if (offer?.reply == null) return null;
  const { text: heard, verdict, reply, confidence = 1, and, other } = offer;
  const reading: Reading = { heard, verdict, reply, confidence, readback: readbackOf(book, reply) };
  if (other) return { ...reading, other, readback: eitherReadback(book, reading, other) };
  return and ? { ...reading, and, readback: bothRead(book, reply, and) } : reading;
}

/** A question that stood open when the session was interrupted opens again as of its first time. */
const placeAfter = (log: Entry[], startedAtMilliseconds: number): Place => {
  const open = openQuestion(log);
  return open === null
    ? { at: 'line', index: 0 }
    : {
        at: 'question',
        prompt: open.prompt,
        openedAtMilliseconds: startedAtMilliseconds + open.atSeconds * 1000,
      };
};

const next = ({ logbook, log, ports }: SessionContext, facts: Fact[]): Entry[] =>
  entriesFor(logbook, log, facts, ports.clock.now());

/** The log with facts that are waited for. */
export function adding(
  context: SessionContext,
  facts: Fact[],
): Pick<SessionContext, 'log' | 'unstored'> {
  const entries = next(context, facts);
  return { log: [...context.log, ...entries], unstored: [...context.unstored, ...entries] };
}

/** The log with facts that are only noted. */
export function noting(
  context: SessionContext,
  facts: Fact[],
): Pick<SessionContext, 'log' | 'unkept'> {
  const entries = next(context, facts);
  return { log: [...context.log, ...entries], unkept: [...context.unkept, ...entries] };
}
