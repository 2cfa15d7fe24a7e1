import type { Finding } from '../domain/findings';
import { eitherWords } from '../domain/hearing/either';
import type { Reading } from '../domain/hearing/reply';
import { outcomeOf, patternNow } from '../domain/reporting/report';
import type { SessionEvent } from '../ports';
import { stepOf } from './attempting';
import { heardOf, type SessionMachineEvent } from './events';
import type { SessionContext } from './sessionContext';

export function showStep(context: SessionContext): void {
  const step = stepOf(context, 'check', 'set');
  const { prompt, side } = step;
  context.stage.show(
    step.do === 'set'
      ? { type: 'step', prompt, side, set: step.set, of: step.of, rung: step.rung }
      : { type: 'step', prompt, side, set: null, of: null, rung: null },
  );
}

/** Puts the noted entries on record and shows those that belong to the timeline. */
export function keepNotes({ book, log, unkept, ports, stage }: SessionContext): void {
  for (const entry of unkept) {
    ports.records.append(entry, (problem) => {
      if (problem) stage.show({ type: 'trouble', what: problem.reason, say: problem.say });
    });
    if (entry.type === 'decision') {
      const { area, from, to, because, rule } = entry;
      stage.show({ type: 'decision', area, from, to, because, rule });
    }
    if (entry.type === 'outcome') {
      const { area, outcome, rung } = entry;
      stage.show({ type: 'outcome', area, outcome, rung, pattern: patternNow(book, log, area) });
    }
  }
}

/** The tone that says: this is on record for good (or: it is not yet, and is kept). */
export function acknowledge({ stage, unstored }: SessionContext, event: SessionMachineEvent): void {
  if (event.type !== 'STORED') return;
  if (event.problem !== null) {
    stage.tone('not-stored');
    stage.show({ type: 'trouble', what: event.problem.reason, say: event.problem.say });
  } else if (unstored.some(({ type }) => type !== 'started')) stage.tone('accepted');
}

export function showHeard(context: SessionContext, event: SessionMachineEvent): void {
  const { reading } = heardOf(context, event);
  const { heard: text, verdict, readback } = reading;
  const either = eitherOf(context, reading);
  context.stage.show({ type: 'heard', text, verdict, readback, ...(either && { either }) });
}

/** Understood, but there is nothing now that it could do. */
export function showNotTaken(context: SessionContext, event: SessionMachineEvent): void {
  const { heard: text } = heardOf(context, event).reading;
  context.stage.show({ type: 'heard', text, verdict: 'ignore', readback: null });
}

function eitherOf({ book }: SessionContext, reading: Reading) {
  const { reply, other } = reading;
  if (reply === null || other?.reply == null) return null;
  const [one, two] = eitherWords(book, reading, other);
  return [
    { words: one, reply },
    { words: two, reply: other.reply },
  ];
}

/** One finding a side: "both" is shown as two. */
const sides = (finding: Finding): Finding[] =>
  finding.side === 'both'
    ? [
        { ...finding, side: 'left' },
        { ...finding, side: 'right' },
      ]
    : [finding];

const plain = ({ side, result, faults, angleDegrees, tool, pain }: Finding): Finding => ({
  side,
  result,
  faults,
  angleDegrees,
  tool,
  pain,
});

export function showFindings({ stage, unstored }: SessionContext): void {
  for (const entry of unstored) {
    if (entry.type !== 'finding') continue;
    const { prompt, load } = entry;
    for (const finding of sides(plain(entry))) {
      stage.show({ type: 'finding', prompt, load, ...finding });
    }
  }
}

export function showDeaf({ stage }: SessionContext, event: SessionMachineEvent): void {
  if (event.type === 'DEAF') stage.show({ type: 'trouble', what: event.why, say: null });
}

export function showEnd({ book, log, stage, endReason }: SessionContext): void {
  const event: SessionEvent = {
    type: 'end',
    reason: endReason ?? 'stopped',
    ...outcomeOf(book, log),
  };
  stage.show({ type: 'phase', phase: 'ended', seconds: null });
  stage.show(event);
}
