import type { Side, Way } from '../../../src/domain/areas';
import { areaStates, nextStep } from '../../../src/domain/deciding/deciding';
import {
  counting,
  saidFindings,
  type Said as SaidOf,
} from '../../../src/domain/deciding/corrected';
import { correctionFacts } from '../../../src/domain/deciding/correction';
import type { Decision, Step } from '../../../src/domain/deciding/step';
import type { PainKind, RedFlag, Result } from '../../../src/domain/findings';
import {
  DEFAULT_SETTINGS,
  type Entry,
  type EntryOf,
  type Fact,
  type OverruleCommand,
  type SessionSettings,
  type Source,
} from '../../../src/domain/log';
import type { CueBook } from '../../../src/domain/script';
import { book as fixture } from './book';

export interface Said {
  side?: Side | 'both' | null;
  faults?: string[];
  pain?: number | null;
  /** About another check or drill than the one at hand. */
  about?: { check: string } | { drill: string };
}

/** A session told as it happens: each word adds an entry some seconds later. */
export class Telling {
  entries: Entry[] = [];
  private seconds = 0;
  private count = 0;
  private decided: {
    entries: Entry[];
    length: number;
    last: Entry | undefined;
    decision: Decision;
  } | null = null;

  constructor(
    routine: string,
    way: Way = 'hands-on',
    settings: Partial<SessionSettings> = {},
    readonly book: CueBook = fixture,
    room: Pick<EntryOf<'started'>, 'missing' | 'allowedAlone'> = {},
  ) {
    const startedAt = '2031-03-01T09:00:00+00:00';
    this.add({
      type: 'started',
      routine,
      language: 'en',
      way,
      startedAt,
      settings: { ...DEFAULT_SETTINGS, ...settings },
      ...room,
    });
  }

  add(fact: Fact): this {
    this.count += 1;
    this.entries.push({ ...fact, id: `s:d:${this.count}`, atSeconds: this.seconds });
    return this;
  }

  wait(seconds: number): this {
    this.seconds += seconds;
    return this;
  }

  /** Words that are not repeated by the next entry, unless they are given. */
  source(text = `words ${this.count}`): Source {
    return { by: 'voice', text, confidence: 1 };
  }

  /** A result at the step at hand. */
  say(result: Result, said: Said = {}): this {
    const step = this.step;
    if (step.do !== 'check' && step.do !== 'set') throw new Error(`Nothing to grade: ${step.do}`);
    const { about = step.do === 'check' ? { check: step.check } : { drill: step.drill } } = said;
    this.wait(20);
    return this.add({
      type: 'finding',
      prompt: step.prompt,
      check: 'check' in about ? about.check : null,
      drill: 'drill' in about ? about.drill : null,
      load: step.do === 'set' ? step.load : null,
      source: this.source(),
      side: said.side === undefined ? step.side : said.side,
      result,
      faults: said.faults ?? [],
      angleDegrees: null,
      tool: null,
      pain: said.pain ?? null,
    });
  }

  held(times = 1): this {
    for (let time = 0; time < times; time += 1) this.say('held');
    return this;
  }

  lost(...faults: string[]): this {
    return this.say('lost', { faults });
  }

  /** Pain at the step at hand, with its number and, where it is asked, its kind. */
  hurts(pain: number | null, kind?: PainKind | 'unanswered'): this {
    this.say('pain', { pain });
    return kind === undefined ? this : this.kind(kind);
  }

  number(pain: number | 'unanswered'): this {
    return this.add({ type: 'pain-number', pain, source: this.source() });
  }

  kind(kind: PainKind | 'unanswered'): this {
    return this.add({ type: 'pain-kind', kind, source: this.source() });
  }

  coach(command: OverruleCommand, target: string | null = null): this {
    return this.add({ type: 'overrule', command, target, source: this.source() });
  }

  redFlag(flag: RedFlag): this {
    return this.add({ type: 'red-flag', flag, prompt: 'idle', source: this.source() });
  }

  halt(): this {
    return this.add({ type: 'halted', source: this.source() });
  }

  end(end: boolean): this {
    return this.add({ type: 'end-answered', end, source: this.source() });
  }

  pause(): this {
    return this.add({ type: 'paused', source: this.source() });
  }

  resume(): this {
    return this.add({ type: 'resumed', source: this.source() });
  }

  /** Puts the finding of that number (from 1; -1 is the last) right; the session ends before it. */
  correct(number: number, change: Partial<SaidOf>, of: Side | null = null): this {
    if (!this.entries.some(({ type }) => type === 'ended')) {
      this.add({ type: 'ended', reason: 'stopped' });
    }
    this.wait(3600);
    const ids = this.entries.filter(({ type }) => type === 'finding').map(({ id }) => id);
    const id = ids.at(number > 0 ? number - 1 : number);
    const one = saidFindings(this.entries).find((each) => each.finding.id === id && each.of === of);
    if (one === undefined) throw new Error(`No finding ${number} to correct.`);
    const correction = { finding: one.finding, of, said: { ...counting(one), ...change } };
    const facts = correctionFacts(this.book, this.entries, correction, '2031-03-02T10:00:00+00:00');
    for (const fact of facts) this.add(fact);
    return this;
  }

  undo(entry: string): this {
    return this.add({ type: 'undone', entry, source: this.source() });
  }

  /** Asked for many times between two entries, and decided once. */
  get decision(): Decision {
    const { entries, decided } = this;
    const [length, last] = [entries.length, entries.at(-1)];
    if (decided?.entries === entries && decided.length === length && decided.last === last)
      return decided.decision;
    const decision = nextStep(this.book, entries);
    this.decided = { entries, length, last, decision };
    return decision;
  }

  get step(): Step {
    return this.decision.step;
  }

  get rule(): string {
    return this.decision.rule;
  }

  /** The step in short: `check hinge-bar`, `set 2 bell-hinge`, `ask pain-kind`, `end completed`. */
  get now(): string {
    return brief(this.step);
  }

  /** The areas in short: `hinge working 2`. */
  get stands(): string {
    return areaStates(this.book, this.entries)
      .map(({ area, outcome, rung }) => `${area} ${outcome}${rung === null ? '' : ` ${rung}`}`)
      .join(', ');
  }
}

/** A step in a few words. */
export function brief(step: Step): string {
  switch (step.do) {
    case 'check': {
      const side = step.side === null ? '' : ` ${step.side}`;
      return `${step.retest ? 'retest' : 'check'} ${step.check}${side}`;
    }
    case 'set':
      return `set ${step.set} ${step.drill}${step.side === null ? '' : ` ${step.side}`}`;
    case 'ask':
      return `ask ${step.about}`;
    case 'end':
      return `end ${step.reason}`;
  }
}
