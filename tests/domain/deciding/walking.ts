import type { Side } from '../../../src/domain/areas';
import { undoable } from '../../../src/domain/deciding/deciding';
import { RED_FLAGS, RESULTS, type PainKind } from '../../../src/domain/findings';
import type { OverruleCommand } from '../../../src/domain/log';
import type { CueBook } from '../../../src/domain/script';
import { seeded } from '../../session/seeded';
import { book as fixture } from './book';
import { Telling } from './logging';

const COMMANDS: OverruleCommand[] = [
  'again',
  'skip',
  'next',
  'back',
  'lighter',
  'heavier',
  'go-to',
];
const KINDS: (PainKind | 'unanswered')[] = ['known', 'known', 'new', 'sharp', 'unanswered'];

export interface Habits {
  /** How often the coach overrules, undoes, pauses and stops, 0 to 1. */
  coach: number;
  /** How often a result comes with pain, 0 to 1. */
  pain: number;
  /** How often a result is `held`, 0 to 1. */
  held: number;
  /** Longest time between two entries, in seconds. */
  slowSeconds: number;
}

/** One seeded session; `tell` adds the next thing that happens. */
export class Walk {
  readonly told: Telling;
  readonly habits: Habits;
  readonly random: () => number;

  constructor(
    readonly seed: number,
    book: CueBook = fixture,
  ) {
    this.random = seeded(seed);
    this.habits = {
      coach: this.pick([0, 0, 0.1, 0.4]),
      pain: this.pick([0, 0.05, 0.3]),
      held: this.pick([0.3, 0.6, 0.9]),
      slowSeconds: this.pick([30, 60, 300]),
    };
    const routine = this.pick(['readiness', 'readiness', 'overhead', 'squat', 'hinge']);
    const way = this.pick(['hands-on', 'hands-on', 'alone'] as const);
    const { equipment, drills } = book;
    const lacks = this.pick([0, 0, 0.3, 0.8, 1]);
    const missing = Object.keys(equipment).filter(() => this.chance(lacks));
    const allowedAlone = Object.keys(drills).filter(() => this.chance(0.3));
    this.told = new Telling(routine, way, {}, book, {
      ...(missing.length > 0 && { missing }),
      ...(way === 'alone' && { allowedAlone }),
    });
  }

  pick<T>(list: readonly T[]): T {
    return list[Math.floor(this.random() * list.length)] as T;
  }

  chance(share: number): boolean {
    return this.random() < share;
  }

  /** What somebody says or does next. Silence and pauses are told by `rest`. */
  tell(): void {
    const { told, habits } = this;
    const { step } = told;
    told.wait(Math.floor(this.random() * habits.slowSeconds));
    if (this.chance(habits.coach / 40)) {
      told.redFlag(this.pick(RED_FLAGS));
    } else if (step.do === 'ask' && step.about === 'end-session') {
      told.end(this.chance(0.3));
    } else if (this.chance(habits.coach / 10)) {
      told.halt();
    } else if (this.chance(habits.coach)) {
      const target = this.pick([
        ...Object.keys(told.book.drills),
        ...Object.keys(told.book.checks),
        'nowhere',
      ]);
      const command = this.pick(COMMANDS);
      told.coach(command, command === 'go-to' ? target : null);
    } else if (step.do === 'ask' && step.about === 'pain-number') {
      told.number(this.chance(0.1) ? 'unanswered' : Math.floor(this.random() * 11));
    } else if (step.do === 'ask') {
      told.kind(this.pick(KINDS));
    } else {
      this.grade();
    }
  }

  private grade(): void {
    const { told, habits } = this;
    const { step } = told;
    if (step.do !== 'check' && step.do !== 'set') return;
    const hurts = this.chance(habits.pain);
    const result = this.chance(habits.held) ? 'held' : this.pick(RESULTS);
    const own = step.side;
    const sides: (Side | 'both' | null)[] =
      own === null ? [null] : [own, own, own, 'left', 'right', 'both'];
    const faults = result === 'held' ? [] : [...FAULTS].filter(() => this.chance(0.2));
    told.say(hurts && this.chance(0.5) ? 'pain' : result, {
      side: this.pick(sides),
      faults,
      pain: hurts && this.chance(0.7) ? Math.floor(this.random() * 8) : null,
    });
    if (hurts && this.chance(0.3)) told.kind(this.pick(KINDS));
  }

  /** Silence, other talk and pauses: nothing that answers. */
  rest(): void {
    const { told } = this;
    if (this.chance(0.2)) told.add({ type: 'asked', prompt: 'idle', side: null });
    if (this.chance(0.1)) {
      told.add({ type: 'heard', prompt: 'idle', text: 'hm', verdict: 'ignore', reply: null });
    }
    if (this.chance(0.05)) told.pause().wait(600).resume();
  }

  /** Takes the last entry back, if there is one. */
  undo(): void {
    const last = undoable(this.told.book, this.told.entries);
    if (last !== null) this.told.undo(last.id);
  }
}

const FAULTS = [
  'ribs-flared',
  'back-arched',
  'heels-up',
  'knees-caved',
  'back-rounded',
  'elbows-dropped',
  'shoulders-forward',
  'knees-forward',
  'hips-first',
] as const;
