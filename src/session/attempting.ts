import { openQuestion } from '../domain/deciding/deciding';
import { openOffer } from '../domain/deciding/offering';
import type { Step } from '../domain/deciding/step';
import type { Reading } from '../domain/hearing/reply';
import type { Fact } from '../domain/log';
import { asDecided, isLoadSet, knownOf } from '../domain/pacing/known';
import type { PacedLine } from '../domain/pacing/line';
import { askOf, planStep } from '../domain/pacing/planning';
import { wordsOf } from '../domain/pacing/words';
import type { Entry } from '../domain/log';
import { say } from '../domain/saying';
import type { PromptId } from '../domain/script';
import type { AttemptInput } from './attemptMachine';
import type { Change, SessionMachineEvent } from './events';
import type { QuestionInput } from './questionMachine';
import { noting, type SessionContext } from './sessionContext';
import type { StageReport } from './stage';
import { weighed } from './weighing';

export const stepOf = <D extends Step['do']>(
  { decision }: SessionContext,
  ...kinds: D[]
): Extract<Step, { do: D }> => {
  const step = decision?.step;
  if (step === undefined || !kinds.some((kind) => kind === step.do)) {
    throw new Error(`No ${kinds.join(' or ')} is decided.`);
  }
  return step as Extract<Step, { do: D }>;
};

/** What is spoken in a step: its lines with its question last, and its counts. */
export interface StepTexts {
  texts: string[];
  counts: string[];
}

/** All that is spoken in the check or set that is decided. */
export function textsOf(context: SessionContext): StepTexts {
  const lines = linesOf(context);
  const counts = lines.flatMap(({ beats }) => beats.flatMap(({ text }) => text ?? []));
  return {
    texts: [
      ...lines.flatMap(({ text }) => text ?? []),
      askOf(context.book, stepOf(context, 'check', 'set')),
    ],
    counts: [...new Set(counts)],
  };
}

function linesOf(context: SessionContext): PacedLine[] {
  const { book, log, stage, blocks } = context;
  const step = stepOf(context, 'check', 'set');
  const before = asDecided(log);
  return planStep(book, step, stage.secondsOf, {
    blocks,
    words: wordsOf(before),
    known: knownOf(before, step.prompt),
    isLoadSet: step.do === 'set' && isLoadSet(before, step),
  });
}

export function attemptInput(context: SessionContext): AttemptInput {
  const { book, stage, kept, place } = context;
  const step = stepOf(context, 'check', 'set');
  const belongsHere = place.at === 'line' || place.prompt === step.prompt;
  return {
    stage,
    prompt: step.prompt,
    side: step.side,
    lines: linesOf(context),
    ask: askOf(book, step),
    place: belongsHere ? place : { at: 'line', index: 0 },
    kept: kept && weighed(context, kept),
    measuresArm: step.do === 'check' && book.checks[step.check]?.level === 'upper-arm',
    told: {
      isLossTold: context.isLevelLossTold,
      passLineDegrees: context.settings.passLineDegrees,
    },
  };
}

/**
 * Whether pain came with a load in the hands. Once the question of that work was asked, it was put
 * down already.
 */
const isLoaded = ({ book, log }: SessionContext): boolean => {
  const at = log.findLastIndex(({ type }) => type === 'finding');
  const finding = log[at];
  if (finding?.type !== 'finding') return false;
  const { checks, drills } = book;
  const done = checks[finding.check ?? ''] ?? drills[finding.drill ?? ''];
  const before = log.slice(0, at);
  const since = before.slice(1 + before.findLastIndex(({ type }) => BEGINS.includes(type)));
  const isAsked = since.some((entry) => entry.type === 'asked' && entry.prompt === finding.prompt);
  return done?.loaded === true && !isAsked;
};
/** What a set or check begins after. */
const BEGINS: Entry['type'][] = ['finding', 'overrule', 'pain-number', 'pain-kind', 'undone'];

export function questionInput(context: SessionContext): QuestionInput {
  const step = stepOf(context, 'ask');
  const { prompt, about } = step;
  const asksLoaded = about === 'pain-number' && isLoaded(context);
  const ask = asksLoaded
    ? say(context.book.lines, 'ask.pain-number-loaded', {})
    : askOf(context.book, step);
  return {
    stage: context.stage,
    prompt,
    side: null,
    // The number decides much, so it is read back before its kind is asked.
    ask: [context.readback, ask].filter(Boolean).join(' '),
    kept: null,
    openedAtMilliseconds: null,
    mayStayUnanswered: about !== 'end-session',
  };
}

/** Follows the attempt, so that it can go on after an interruption, and notes opened questions. */
export function followReport(context: SessionContext, event: SessionMachineEvent): Change {
  if (event.type !== 'REPORT') return {};
  const { report } = event;
  const isAsk = context.decision?.step.do === 'ask';
  if (report.type === 'OFFERED') {
    const { reading: offered } = report;
    return { offered, ...(!isAsk && followOffer(context, report)) };
  }
  if (report.type === 'LEVEL_LOST') return { isLevelLossTold: true };
  if (report.type === 'AT_LINE') return { place: { at: 'line', index: report.index } };
  if (report.type === 'WORK_DONE') {
    return { place: { at: 'question', prompt: report.prompt, openedAtMilliseconds: null } };
  }
  const { openedAtMilliseconds, prompt, side } = report;
  const isNoted = context.openedAtMilliseconds === openedAtMilliseconds;
  return {
    openedAtMilliseconds,
    offered: null,
    ...(!isAsk && { place: { at: 'question', prompt, openedAtMilliseconds }, kept: null }),
    ...(!isNoted && noting(context, [{ type: 'asked', prompt, side }])),
  };
}

/** An offer is noted with its question, so that a reload asks it again. */
function followOffer(
  context: SessionContext,
  { prompt, side, reading }: Extract<StageReport, { type: 'OFFERED' }>,
): Change {
  const open = openQuestion(context.log);
  const noted = openOffer(context.log);
  const fact = heardFact(prompt, reading);
  const isAsked = open?.prompt === prompt && open.side === side;
  // Nobody has said what a level offers: after a reload the question is asked.
  const isMeasured = reading.measured !== undefined;
  const isNoted = isAsked && noted?.text === fact.text && same(noted.reply, fact.reply);
  return {
    place: { at: 'question', prompt, openedAtMilliseconds: null },
    ...noting(context, [
      ...(isAsked ? [] : [{ type: 'asked', prompt, side } as const]),
      ...(isNoted || isMeasured ? [] : [fact]),
    ]),
  };
}

const same = (one: unknown, other: unknown): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

export function heardFact(prompt: PromptId, reading: Reading): Fact & { type: 'heard' } {
  const { heard: text, verdict, reply, confidence, and, other } = reading;
  return {
    ...{ type: 'heard', prompt, text, verdict, reply, confidence },
    ...(and && { and }),
    ...(other && { other }),
  };
}

/** After a pause, a halt or an aside the question is asked anew, with all of its time. */
export const askAnew = ({ place }: SessionContext): Pick<SessionContext, 'place'> => ({
  place: place.at === 'question' ? { ...place, openedAtMilliseconds: null } : place,
});
