/** Homework over days, as the shipped scripts have it: each session on a virtual clock. */
import { secondsIn } from '../../../src/cli/durations';
import { rehearse, type Rehearsed } from '../../../src/cli/rehearsing';
import { bookOf } from '../../../src/cli/verb';
import type { Handover, HandoverTask } from '../../../src/domain/handover/handover';
import { homeworkSession, nextTasks } from '../../../src/domain/handover/progress';
import type { HomeworkDay } from '../../../src/domain/handover/progressDay';
import { nextStep } from '../../../src/domain/deciding/deciding';
import type { PainKind } from '../../../src/domain/findings';
import type { Entry, Fact, OverruleCommand } from '../../../src/domain/log';

export const book = bookOf();
const books = new Map([['en', book]]);

function bookIn(language: string) {
  const known = books.get(language) ?? bookOf(language);
  books.set(language, known);
  return known;
}

export const handedOver = (tasks: HandoverTask[], more: Partial<Handover> = {}): Handover => ({
  id: '0123456789abcdef',
  language: 'en',
  madeAt: '2031-03-01T10:00:00+01:00',
  tasks,
  missing: [],
  allowedAlone: [],
  painGoesOnUpTo: 2,
  painRefersAbove: 5,
  ...more,
});

/** A handover and what came of it, day by day. */
export class Days {
  logs: Entry[][] = [];
  last: Rehearsed | null = null;

  constructor(
    readonly handover: Handover,
    readonly language = 'en',
  ) {}

  /** What would be done at that moment, wall time with offset. */
  at(now: string): HomeworkDay {
    return nextTasks(bookIn(this.language), this.handover, this.logs, now);
  }

  /** One session then, answered in turn; "fill" is said to every question after those. */
  do(now: string, replies: string[], fill?: string): this {
    const day = this.at(now);
    const offset = /([+-])(\d\d):(\d\d)$/.exec(now);
    const minutes = Number(offset?.[2] ?? 0) * 60 + Number(offset?.[3] ?? 0);
    const inTurn = [...replies, ...(fill === undefined ? [] : Array<string>(40).fill(fill))];
    this.last = rehearse({
      book: bookIn(this.language),
      ...homeworkSession(day),
      secondsOf: secondsIn(this.language),
      session: `day-${this.logs.length + 1}`,
      startsAtMilliseconds: Date.parse(now),
      utcOffsetMinutes: offset?.[1] === '-' ? -minutes : minutes,
      replies: {
        inTurn: inTurn.map((text, at) => ({ line: at + 1, text, audio: null })),
        timed: [],
      },
    });
    this.logs.push(this.last.entries);
    return this;
  }

  /** What was said in the last session. */
  get cues(): string[] {
    return (this.last?.timeline ?? []).flatMap((event) =>
      event.type === 'cue' ? [event.text] : [],
    );
  }

  /** The sets of the last session in short: "bench-hinge as-written held". */
  get sets(): string[] {
    return (this.last?.entries ?? []).flatMap((entry) =>
      entry.type === 'finding' ? [`${entry.drill} ${entry.load} ${entry.result}`] : [],
    );
  }
}

/** A day in short: "hinge bench-hinge 1 as-written same, squat left pain". */
export const brief = ({ tasks, left }: HomeworkDay): string =>
  [
    ...tasks.map(({ area, drill, rung, load, why }) => `${area} ${drill} ${rung} ${load} ${why}`),
    ...left.map(({ area, why }) => `${area} left ${why}`),
  ].join(', ');

/** What is said to the step at hand; `stop` ends the session there. */
export type Answer =
  | { say: 'held' | 'lost' | 'short' | 'not-tested' }
  | { pain: number | 'unanswered'; kind: PainKind | 'unanswered' }
  | { coach: OverruleCommand }
  | 'flag'
  | 'stop';

/** The log of a session, folded without its machine: answers in turn, "held" and no pain after. */
export function folded(day: HomeworkDay, startedAt: string, answers: readonly Answer[]): Entry[] {
  const log: Entry[] = [];
  const source = { by: 'hand', text: '', confidence: 1 } as const;
  const add = (fact: Fact) => {
    const number = log.length + 1;
    log.push({ ...fact, id: `${startedAt}:d:${number}`, atSeconds: 30 * number });
  };
  const session = homeworkSession(day);
  add({ type: 'started', language: 'en', startedAt, ...session });
  const left = [...answers];
  for (let turn = 0; turn < 60; turn += 1) {
    const { step } = nextStep(book, log);
    if (step.do === 'end') {
      add({ type: 'ended', reason: step.reason });
      return log;
    }
    const answer = left.shift() ?? { say: 'held' };
    if (answer === 'stop') return log;
    if (answer === 'flag') {
      add({ type: 'red-flag', flag: 'faint-dizzy', prompt: 'idle', source });
    } else if (step.do === 'ask') {
      const pain = typeof answer === 'object' && 'pain' in answer ? answer.pain : 0;
      const kind = typeof answer === 'object' && 'kind' in answer ? answer.kind : 'known';
      if (step.about === 'pain-morning') add({ type: 'morning', area: step.area, pain, source });
      else if (step.about === 'pain-kind') add({ type: 'pain-kind', kind, source });
      else if (step.about === 'pain-number') add({ type: 'pain-number', pain, source });
      // The kind is asked next.
      if (pain !== 'unanswered' && pain > 0) left.unshift(answer);
      if (step.about === 'pain-kind') left.shift();
    } else if (step.do === 'set') {
      if ('coach' in answer) {
        add({ type: 'overrule', command: answer.coach, target: null, source });
        continue;
      }
      const isPain = 'pain' in answer;
      const pain = isPain && answer.pain !== 'unanswered' ? answer.pain : null;
      const { prompt, drill, side, load } = step;
      const result = isPain ? 'pain' : answer.say;
      add({
        ...{ type: 'finding', prompt, check: null, drill, load, side, result, pain, source },
        ...{ faults: [], angleDegrees: null, tool: null },
      });
      if (isPain && answer.pain === 'unanswered')
        add({ type: 'pain-number', pain: 'unanswered', source: null });
      else if (isPain) add({ type: 'pain-kind', kind: answer.kind, source });
    }
  }
  return log;
}
