import { openQuestion } from '../domain/deciding/deciding';
import { openOffer } from '../domain/deciding/offering';
import type { Decision, Step } from '../domain/deciding/step';
import type { Reading } from '../domain/hearing/reply';
import type { Fact } from '../domain/log';
import { askOf, planStep } from '../domain/pacing/planning';
import type { Entry } from '../domain/log';
import { say } from '../domain/saying';
import type { PromptId } from '../domain/script';
import type { AttemptInput } from './attemptMachine';
import type { Change, SessionMachineEvent } from './events';
import type { QuestionInput } from './questionMachine';
import { noting, type SessionContext } from './sessionContext';
import type { StageReport } from './stage';
import { weighed } from './weighing';

/**
 * Readback, outcomes and the reason, in that order; where something new begins after the reason,
 * the outcomes stand between the two. A reason that reads back itself is enough.
 */
export function tellingTexts({ book, log, readback, texts, decision }: SessionContext): string[] {
  const because = decision === null || namesSide(decision) ? '' : decision.because;
  const words = readback.replace(/\W+$/, '').toLowerCase();
  const said = because.toLowerCase().includes(words) ? '' : readback;
  const then = decision?.then ?? null;
  const welcome = isNew(log)
    ? [say(book.lines, 'say.welcome', {}), say(book.lines, 'say.caution', {})]
    : [];
  return then === null ? [...welcome, said, ...texts, because] : [said, because, ...texts, then];
}

/** The step begins with its side, so a reason that only says that need not be said. */
const namesSide = ({ rule }: Decision): boolean => rule === '10.3' || rule === '2.3';

/** Nothing was said or asked yet: a session that has just begun. */
const isNew = (log: Entry[]): boolean =>
  log.every(({ type }) => type === 'started' || type === 'decision');

export const markTold = ({ decision }: SessionContext): Change => ({
  told: decision,
  readback: '',
  texts: [],
});

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

export function attemptInput(context: SessionContext): AttemptInput {
  const { book, stage, kept, place, blocks } = context;
  const step = stepOf(context, 'check', 'set');
  const lines = planStep(book, step, stage.secondsOf, blocks);
  const question = askOf(book, step);
  stage.prepare([...lines.flatMap(({ text }) => text ?? []), question]);
  const belongsHere = place.at === 'line' || place.prompt === step.prompt;
  return {
    stage,
    prompt: step.prompt,
    side: step.side,
    lines,
    ask: question,
    place: belongsHere ? place : { at: 'line', index: 0 },
    kept: kept && weighed(context, kept),
  };
}

/** Whether what was being done when pain came has a load in the hands. */
const isLoaded = ({ book, log }: SessionContext): boolean => {
  const finding = log.findLast((entry) => entry.type === 'finding');
  const { checks, drills } = book;
  const done = checks[finding?.check ?? ''] ?? drills[finding?.drill ?? ''];
  return done?.loaded === true;
};

export function questionInput(context: SessionContext): QuestionInput {
  const { prompt, about } = stepOf(context, 'ask');
  const asksLoaded = about === 'pain-number' && isLoaded(context);
  const key =
    about === 'end-session' ? 'confirm.end' : `ask.${about}${asksLoaded ? '-loaded' : ''}`;
  return {
    stage: context.stage,
    prompt,
    side: null,
    ask: say(context.book.lines, key, {}),
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
  if (report.type === 'OFFERED') return isAsk ? {} : followOffer(context, report);
  if (report.type === 'AT_LINE') return { place: { at: 'line', index: report.index } };
  const { openedAtMilliseconds, prompt, side } = report;
  const isNoted = context.openedAtMilliseconds === openedAtMilliseconds;
  return {
    openedAtMilliseconds,
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
  const isNoted = isAsked && noted?.text === fact.text && same(noted.reply, fact.reply);
  return {
    place: { at: 'question', prompt, openedAtMilliseconds: null },
    ...(!isNoted &&
      noting(context, [...(isAsked ? [] : [{ type: 'asked', prompt, side } as const]), fact])),
  };
}

const same = (one: unknown, other: unknown): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

export function heardFact(prompt: PromptId, reading: Reading): Fact & { type: 'heard' } {
  const { heard: text, verdict, reply, confidence } = reading;
  return { type: 'heard', prompt, text, verdict, reply, confidence };
}

/** After a pause, a halt or an aside the question is asked anew, with all of its time. */
export const askAnew = ({ place }: SessionContext): Pick<SessionContext, 'place'> => ({
  place: place.at === 'question' ? { ...place, openedAtMilliseconds: null } : place,
});
