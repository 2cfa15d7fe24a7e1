import { areaStates, nextStep } from '../domain/deciding/deciding';
import type { AreaState, Decision } from '../domain/deciding/step';
import type { Entry, Fact } from '../domain/log';
import { changeWords, closingWords } from '../domain/reporting/closing';
import { outcomeSaid } from '../domain/reporting/outcomeWords';
import { say } from '../domain/saying';
import type { Change, SessionMachineEvent } from './events';
import { noting, type SessionContext } from './sessionContext';

const same = (one: unknown, other: unknown): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

/** The next decision; one that was told already is the same object, so it is not told twice. */
export function decide(context: SessionContext): Change {
  const fresh = nextStep(context.book, context.log);
  const known = [context.told, context.decision].find((decision) => same(decision, fresh));
  if (known && !context.isStale) return { decision: known };
  const states = areaStates(context.book, context.log);
  const outcomes = Object.fromEntries(
    states.filter(isOver).map(({ area, outcome }) => [area, outcome]),
  );
  const news = states.filter(
    (state) => isOver(state) && context.outcomes[state.area] !== state.outcome,
  );
  const facts: Fact[] = [...news.map(outcomeFact), ...decisionFacts(context, fresh)];
  return {
    decision: fresh,
    isStale: false,
    outcomes,
    texts: news.flatMap((state) => [
      ...changeWords(context.book, context.log, state.area),
      outcomeSaid(context.book, context.log, state),
    ]),
    ...noting(context, facts),
  };
}

const isOver = ({ outcome }: AreaState): boolean => outcome !== 'unfinished';

const outcomeFact = ({ area, outcome, rung }: AreaState): Fact => ({
  type: 'outcome',
  area,
  outcome,
  rung,
});

/** A reload decides the same again; it is noted once. */
function decisionFacts({ log }: SessionContext, decision: Decision): Fact[] {
  const { rule, because, area, from, to, by } = decision;
  const last = log.findLast((entry) => entry.type === 'decision');
  const fact: Fact = { type: 'decision', rule, because, area, from, to, by };
  const isNoted = last !== undefined && same({ ...last, ...fact }, last) && isLatest(log, last);
  return isNoted ? [] : [fact];
}

/** Entries that decide nothing. */
const UNDECIDING: Entry['type'][] = ['asked', 'heard', 'paused', 'resumed', 'words'];

const isLatest = (log: Entry[], entry: Entry): boolean =>
  log.slice(log.indexOf(entry) + 1).every(({ type }) => UNDECIDING.includes(type));

/** A warning sign over the closing words, when the rules have ended the session already. */
const warnedAtEnd = (log: Entry[]): boolean =>
  log.findLastIndex(({ type }) => type === 'red-flag') >
  log.findLastIndex(({ type }) => type === 'ended');

export function conclude(context: SessionContext, event: SessionMachineEvent): Change {
  const { book, decision, log, outcomes } = context;
  const reason =
    event.type === 'REPLIES_ENDED'
      ? 'replies-ended'
      : warnedAtEnd(log)
        ? 'red-flag'
        : decision?.step.do === 'end'
          ? decision.step.reason
          : 'stopped';
  const open = areaStates(book, log).filter(({ area }) => outcomes[area] === undefined);
  const texts = reason === 'replies-ended' ? [] : closingTexts(context, reason);
  return {
    endReason: reason,
    texts,
    ...noting(context, [...open.map(outcomeFact), { type: 'ended', reason }]),
  };
}

const CLOSING = { completed: 'say.finished', stopped: 'say.stopped', 'red-flag': 'say.red-flag' };

function closingTexts(
  { book, log, readback, texts }: SessionContext,
  reason: keyof typeof CLOSING,
): string[] {
  const closing = say(book.lines, CLOSING[reason], {});
  // Help comes first: what is urgent is not kept waiting by what became of the areas.
  if (reason === 'red-flag') return [closing, ...texts];
  return [readback, ...texts, ...(reason === 'completed' ? closingWords(book, log) : []), closing];
}
