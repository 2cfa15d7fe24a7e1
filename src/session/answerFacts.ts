import type { Area } from '../domain/areas';
import type { AngleTool, Finding } from '../domain/findings';
import { ANGLE_DEGREES } from '../domain/hearing/judging';
import type { Reply } from '../domain/hearing/reply';
import type { Fact, SessionSettings, Source } from '../domain/log';
import type { Step } from '../domain/deciding/step';
import type { Weighed } from './weighing';

export type AttemptStep = Extract<Step, { do: 'check' | 'set' }>;
export type AskStep = Extract<Step, { do: 'ask' }>;

/**
 * The finding that a reply makes of a step. A result said together with more pain than goes on
 * becomes `pain` (DOMAIN rule of pain); `tool` is what angles are read with.
 */
export function findingOf(
  step: AttemptStep,
  reply: Reply,
  settings: SessionSettings,
  tool: AngleTool,
): Finding {
  const { least, most } = ANGLE_DEGREES;
  const said = reply.angleDegrees;
  // An impossible angle is no measure, even after a yes; the words heard stay on record.
  const angleDegrees = said !== null && said >= least && said <= most ? said : null;
  const hurts = reply.pain !== null && reply.pain > settings.painGoesOnUpTo;
  return {
    side: step.side === null ? null : (reply.side ?? step.side),
    result: hurts ? 'pain' : (reply.result ?? 'pain'),
    faults: reply.faults,
    angleDegrees,
    tool: angleDegrees === null ? null : tool,
    pain: reply.pain,
  };
}

/** Pain is said, with or without a number; "no pain" is not. */
export const isPain = (reply: Reply): boolean =>
  reply.result === 'pain' || (reply.pain !== null && reply.pain > 0);

/** What an answer to a check or set adds to the log. */
export function findingFacts(
  step: AttemptStep,
  reading: Weighed & { reply: Reply },
  source: Source,
  settings: SessionSettings,
  tool: AngleTool,
): Fact[] {
  const shinDegrees = reading.measured?.shinDegrees;
  const unsure = reading.verdict === 'confirm' && isPain(reading.reply);
  const finding: Fact = {
    type: 'finding',
    prompt: step.prompt,
    check: step.do === 'check' ? step.check : null,
    drill: step.do === 'set' ? step.drill : null,
    load: step.do === 'set' ? step.load : null,
    source,
    ...findingOf(step, reading.reply, settings, tool),
    ...(shinDegrees !== undefined && { shinDegrees }),
    // Pain acts before anything is confirmed, so what else was half heard does not count.
    ...(unsure && { result: 'pain' as const, faults: [], angleDegrees: null, tool: null }),
  };
  const { painKind } = reading.reply;
  return isPain(reading.reply) && painKind !== null
    ? [finding, { type: 'pain-kind', kind: painKind, source }]
    : [finding];
}

/** What an answer to a question about pain or the end adds; a null reply is silence to the end. */
export function askFacts(step: AskStep, reply: Reply | null, source: Source): Fact[] {
  if (step.about === 'end-session') {
    return [{ type: 'end-answered', end: reply?.command === 'yes', source }];
  }
  if (step.about === 'pain-kind') {
    const said = reply?.painKind ?? (reply?.command === 'yes' ? 'new' : 'known');
    return [
      reply === null
        ? { type: 'pain-kind', kind: 'unanswered', source: null }
        : { type: 'pain-kind', kind: said, source },
    ];
  }
  if (step.about === 'pain-morning') return morningFacts(step.area, reply, source);
  if (reply === null || reply.pain === null) {
    return [{ type: 'pain-number', pain: 'unanswered', source: null }];
  }
  const number: Fact = { type: 'pain-number', pain: reply.pain, source };
  return reply.painKind === null
    ? [number]
    : [number, { type: 'pain-kind', kind: reply.painKind, source }];
}

/** How it was the morning after; silence is on record as unanswered. */
function morningFacts(area: Area, reply: Reply | null, source: Source): Fact[] {
  if (reply === null || reply.pain === null) {
    return [{ type: 'morning', area, pain: 'unanswered', source: null }];
  }
  const { pain, painKind: kind } = reply;
  const morning: Fact = { type: 'morning', area, pain, source };
  return kind === null ? [morning] : [morning, { type: 'pain-kind', kind, source }];
}
