import { nextStep, undoable } from '../domain/deciding/deciding';
import type { Reading } from '../domain/hearing/reply';
import type { Fact, OverruleCommand, Source } from '../domain/log';
import { hasPain, sameAs } from '../domain/deciding/sides';
import { askFacts, findingFacts, isPain, type AttemptStep } from './answerFacts';
import { awaitsPainNumber } from './latePain';
import { askAnew, heardFact, stepOf } from './attempting';
import { heardOf, sourceOf, type Change, type SessionMachineEvent } from './events';
import type { QuestionOutput } from './questionMachine';
import { adding, noting, type SessionContext } from './sessionContext';
import { sentence, undoneText } from './telling';
import { replaces, type Weighed } from './weighing';

/** Something was added that decides: the next step is told and begun from its start. */
const AFRESH = { told: null, isStale: true, kept: null, place: { at: 'line', index: 0 } } as const;

function recordFinding(context: SessionContext, step: AttemptStep, reading: Weighed): Change {
  const { reply } = reading;
  if (reply === null) return {};
  const { settings, angleTool } = context;
  const source = sourceOf(reading);
  const tool = reading.measured === undefined ? angleTool : 'tilt-sensor';
  const facts = [reply, ...(reading.and ? [reading.and] : [])].flatMap((said) =>
    findingFacts(step, { ...reading, reply: said }, source, settings, tool).map((fact) =>
      said.same ? likeOther(context, step, fact) : fact,
    ),
  );
  // A side that is put right while the other's question is open: that question opens again.
  const isWorkDone =
    context.place.at === 'question' &&
    reply.side !== 'both' &&
    !isPain(reply) &&
    replaces(context, step, reply.side);
  // What was confirmed by a yes was read back already.
  const readback = reading.verdict === 'accept' ? (reading.readback ?? '') : '';
  return {
    ...AFRESH,
    ...(isWorkDone && {
      place: { at: 'question', prompt: step.prompt, openedAtMilliseconds: null },
    }),
    readback: isPain(reply) ? '' : sentence(readback),
    ...adding(context, facts),
  };
}

/** Takes over how the other side was measured; where that one hurt, pain is asked for here. */
function likeOther({ book, log }: SessionContext, step: AttemptStep, fact: Fact): Fact {
  if (fact.type !== 'finding') return fact;
  const same = sameAs(book, log, step, fact.side);
  if ('lacks' in same) return fact;
  const asksPain = hasPain(same.like) && fact.pain === null;
  const tool = fact.angleDegrees === null ? null : same.like.tool;
  return { ...fact, tool, ...(asksPain && { asksPain }) };
}

export const recordAnswer = (context: SessionContext, { reading }: QuestionOutput): Change =>
  reading === null ? {} : recordFinding(context, stepOf(context, 'check', 'set'), reading);

export function recordAskAnswer(context: SessionContext, { reading }: QuestionOutput): Change {
  const step = stepOf(context, 'ask');
  const source: Source = reading ? sourceOf(reading) : { by: 'voice', text: '', confidence: 0 };
  const added = adding(context, askFacts(step, reading?.reply ?? null, source));
  // "No" to the end goes on where the stop came in; pain decides afresh.
  return step.about === 'end-session'
    ? { ...added, ...askAnew(context) }
    : { ...AFRESH, readback: sentence(reading?.readback ?? ''), ...added };
}

/** Pain counts at once for the step that goes on, or that was asked about when stop came in. */
export function recordPain(context: SessionContext, event: SessionMachineEvent): Change {
  const { reading } = heardOf(context, event);
  // What comes before the number was asked belongs to the pain just told.
  if (awaitsPainNumber(context.log)) return recordLatePain(context, reading);
  const step = [context.decision?.step, context.told?.step].find(
    (each) => each?.do === 'check' || each?.do === 'set',
  );
  return step === undefined ? {} : recordFinding(context, step as AttemptStep, reading);
}

function recordLatePain(context: SessionContext, reading: Reading): Change {
  const { reply } = reading;
  if (reply === null) return {};
  const source = sourceOf(reading);
  const facts: Fact[] = [
    ...(reply.pain === null ? [] : [{ type: 'pain-number', pain: reply.pain, source } as const]),
    ...(reply.painKind ? [{ type: 'pain-kind', kind: reply.painKind, source } as const] : []),
  ];
  return { ...AFRESH, ...adding(context, facts) };
}

export function recordFlag(context: SessionContext, event: SessionMachineEvent): Change {
  const { reading, prompt } = heardOf(context, event);
  const flag = reading.reply?.redFlag ?? null;
  if (flag === null) return {};
  return adding(context, [{ type: 'red-flag', flag, prompt, source: sourceOf(reading) }]);
}

const recording =
  (type: 'halted' | 'paused' | 'resumed') =>
  (context: SessionContext, event: SessionMachineEvent): Change => ({
    ...noting(context, [{ type, source: sourceOf(heardOf(context, event).reading) }]),
    ...askAnew(context),
  });
export const recordHalt = recording('halted');
export const recordPause = recording('paused');
export const recordResume = recording('resumed');

export function recordUndo(context: SessionContext, event: SessionMachineEvent): Change {
  const entry = undoable(context.book, context.log);
  if (entry === null) return {};
  const source = sourceOf(heardOf(context, event).reading);
  return {
    ...AFRESH,
    // What was said wrong is asked again; the work itself was done.
    ...(entry.type === 'finding' && {
      place: { at: 'question', prompt: entry.prompt, openedAtMilliseconds: null },
    }),
    readback: undoneText(context.book, entry),
    ...adding(context, [{ type: 'undone', entry: entry.id, source }]),
  };
}

export function recordOverrule(context: SessionContext, event: SessionMachineEvent): Change {
  const { reading } = heardOf(context, event);
  const command = reading.reply?.command as OverruleCommand;
  const target = reading.reply?.target ?? null;
  const source = sourceOf(reading);
  const added = adding(context, [{ type: 'overrule', command, target, source }]);
  const isRefused = nextStep(context.book, added.log).rule === '9.8';
  return {
    ...AFRESH,
    // What was refused changes nothing: the work was done, and its question is asked again.
    ...(isRefused && context.place.at === 'question' && askAnew(context)),
    readback: '',
    ...added,
  };
}

/** Words that were heard for an answer; talk that is not meant for Sayso is never kept. */
export function noteHeard(context: SessionContext, event: SessionMachineEvent): Change {
  const { reading, prompt } = heardOf(context, event);
  return noting(context, [heardFact(prompt, reading)]);
}

/** A full result during the work is offered when its question opens. */
export const keepEarly = (context: SessionContext, event: SessionMachineEvent): Change =>
  context.told !== null && context.told === context.decision
    ? { kept: heardOf(context, event).reading }
    : {};
