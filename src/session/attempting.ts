import type { Step } from '../domain/deciding/step';
import { askOf, planStep } from '../domain/pacing/planning';
import { say } from '../domain/saying';
import type { AttemptInput } from './attemptMachine';
import type { Change, SessionMachineEvent } from './events';
import type { QuestionInput } from './questionMachine';
import { noting, type SessionContext } from './sessionContext';

/** Readback, outcomes and the reason, in that order; a reason that reads back itself is enough. */
export function tellingTexts({ readback, texts, decision }: SessionContext): string[] {
  const because = decision?.because ?? '';
  const words = readback.replace(/\W+$/, '').toLowerCase();
  return [because.toLowerCase().includes(words) ? '' : readback, ...texts, because];
}

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
  const { book, stage, kept, place } = context;
  const step = stepOf(context, 'check', 'set');
  const lines = planStep(book, step, stage.secondsOf);
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
    kept,
  };
}

export function questionInput(context: SessionContext): QuestionInput {
  const { prompt, about } = stepOf(context, 'ask');
  const key = about === 'end-session' ? 'confirm.end' : `ask.${about}`;
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
  if (report.type === 'AT_LINE') return { place: { at: 'line', index: report.index } };
  const { openedAtMilliseconds, prompt, side } = report;
  const isNoted = context.openedAtMilliseconds === openedAtMilliseconds;
  return {
    openedAtMilliseconds,
    ...(!isAsk && { place: { at: 'question', prompt, openedAtMilliseconds }, kept: null }),
    ...(!isNoted && noting(context, [{ type: 'asked', prompt, side }])),
  };
}

/** After a pause, a halt or an aside the question is asked anew, with all of its time. */
export const askAnew = ({ place }: SessionContext): Pick<SessionContext, 'place'> => ({
  place: place.at === 'question' ? { ...place, openedAtMilliseconds: null } : place,
});
