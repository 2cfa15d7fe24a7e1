import { assign, setup } from 'xstate';
import type { Reading } from '../domain/hearing/reply';
import type { EndReason } from '../domain/log';
import { say } from '../domain/saying';
import type { WarmUpPlan } from '../domain/warmUp/planning';
import { turnsOf } from '../domain/warmUp/turns';
import { hearing, type HearingEvent } from './hearing';
import { meaningOf, planned, type Left, type Meaning, type WarmUpInput } from './leading';
import { playingWarmUp, type PlayingEvent } from './playingWarmUp';
import { questionMachine } from './questionMachine';
import * as reacting from './reacting';
import { speaking, type SpokenEvent } from './speaking';
import { createStage, type Stage } from './stage';

export interface WarmUpContext extends WarmUpInput {
  stage: Stage;
  /** What plays, from its own second 0 on. */
  plan: WarmUpPlan;
  planStartsAtMilliseconds: number;
  /** The turn of the plan that is on; one past the last in the closing words. */
  turn: number;
  /** Places of turns of which work was done. */
  worked: ReadonlySet<number>;
  /** The first turn has begun: nobody is welcomed again. */
  isUnderway: boolean;
  /** Turns of the whole. */
  count: number;
  /** A promise could not be kept: what is left is as short as it can be. */
  isShortest: boolean;
  aside: string;
  reason: EndReason;
}

type WarmUpEvent = HearingEvent | SpokenEvent | PlayingEvent;

const setUp = setup({
  types: {} as {
    context: WarmUpContext;
    events: WarmUpEvent;
    input: WarmUpInput;
    output: EndReason;
  },
  actors: { hearing, speaking, playing: playingWarmUp, question: questionMachine },
  actions: {
    attendIdle: ({ context }) => context.stage.attend('idle'),
    halt: ({ context }) => reacting.halt(context.stage),
    showHeld: ({ context }) =>
      context.stage.show({ type: 'phase', phase: 'paused', seconds: null }),
    heardSoFar: ({ context }) => reacting.heardSoFar(context.stage),
    notUnderstood: ({ context }) => context.stage.tone('not-understood'),
    adjustVoice: ({ context, event }) => reacting.adjustVoice(context.ports, event),
    showHeard: ({ context, event }) => reacting.showHeard(context.stage, event),
    showDeaf: ({ context, event }) => reacting.showDeaf(context.stage, event),
    takeTurn: assign(({ event }) =>
      event.type === 'TURN' ? { turn: event.index, isUnderway: true } : {},
    ),
    takeWork: assign(({ event, context: { plan, worked } }) => {
      const turn = event.type === 'WORK' ? plan.turns[event.index]?.turn : undefined;
      return turn === undefined ? {} : { worked: new Set([...worked, turn.at]) };
    }),
    showTurn: ({ context: { stage, plan, turn, count } }) => {
      const on = plan.turns[turn];
      if (on === undefined) return;
      stage.show({
        ...{ type: 'step', prompt: 'idle', side: null, rung: null },
        ...{ set: on.turn.at + 1, of: count },
      });
      const seconds = on.workAtSeconds - on.atSeconds;
      stage.show({ type: 'phase', phase: 'settling', seconds });
    },
    /** Plans what is left anew, from the turn that is on and so many further. */
    planAnew: assign(({ context }, by: -1 | 0 | 1) => {
      const { plan, turn, isUnderway, worked, count } = context;
      const on = plan.turns[turn]?.turn.at ?? (isUnderway ? count : 0);
      // Before the first turn there is nothing to leave out but the welcome.
      const done = isUnderway ? Math.max(0, on + by) : on;
      const skipped = new Set(
        Array.from({ length: done }, (_, at) => at).filter((at) => !worked.has(at)),
      );
      const where = by === 1 || !isUnderway ? null : by === 0 ? 'stay' : 'back';
      const { isShortest } = context;
      const left: Left = { done, isUnderway: isUnderway || by === 1, skipped, where, isShortest };
      const next = planned(context, left);
      return {
        ...{ plan: next.plan, turn: 0, planStartsAtMilliseconds: context.ports.clock.now() },
        isUnderway: left.isUnderway,
        ...(next.isLate && {
          endsAtMilliseconds: null,
          isShortest: true,
          aside: say(context.book.lines, 'group.late', {}),
        }),
      };
    }),
    clearAside: assign({ aside: '' }),
    setLine: assign(({ context }, key: string) => ({ aside: say(context.book.lines, key, {}) })),
    become: assign((_, reason: EndReason) => ({ reason })),
    /** To the question whether to end, where it is open. */
    pass: ({ event, self }) => {
      const { question } = self.getSnapshot().children;
      const isNothing = event.type === 'HEARD' && event.reading.verdict === 'ignore';
      question?.send(isNothing ? { type: 'NOTHING' } : event);
    },
    askAnew: ({ self }) => self.getSnapshot().children.question?.send({ type: 'REPEAT' }),
  },
  guards: {
    means: ({ context, event }, meaning: Meaning) =>
      event.type === 'HEARD' && meaningOf(event, context.isLedByVoice) === meaning,
    takesSoFar: ({ context, event }) =>
      event.type === 'SO_FAR' &&
      reacting.isTaken(meaningOf({ ...event, by: 'voice' }, context.isLedByVoice)),
    saysEnd: (_, reading: Reading | null) => reading?.reply?.command === 'yes',
    isLate: ({ context }) => context.aside !== '',
  },
});

const heard = (meaning: Meaning) => ({ type: 'means', params: meaning }) as const;
const IGNORED = { guard: heard('ignored'), actions: 'showHeard' } as const;
const SIGN = {
  guard: heard('sign'),
  target: '#warmUp.ending',
  actions: [
    'halt',
    'showHeard',
    { type: 'setLine', params: 'group.sign' },
    { type: 'become', params: 'red-flag' },
  ],
} as const;
const STOP = {
  guard: heard('stop'),
  target: '#warmUp.askingEnd',
  actions: ['halt', 'showHeard', 'clearAside'],
} as const;
const PAIN = {
  guard: heard('pain'),
  target: '#warmUp.sayingAside',
  actions: ['halt', 'showHeard', { type: 'setLine', params: 'group.pain' }],
} as const;
const HOLD = {
  guard: heard('hold'),
  target: '#warmUp.held',
  actions: ['showHeard', 'clearAside'],
} as const;
const LOUDNESS = { guard: heard('loudness'), actions: ['showHeard', 'adjustVoice'] } as const;
const NOT_TAKEN = { actions: ['showHeard', 'notUnderstood'] } as const;
/** What is left is planned anew, that many turns further. */
const moved = (meaning: Meaning, params: -1 | 0 | 1) =>
  ({
    guard: heard(meaning),
    target: '#warmUp.choosing',
    actions: ['showHeard', 'clearAside', { type: 'planAnew', params }],
  }) as const;
/** At rest nothing but these starts it again, and no mere word about the voice. */
const AT_REST = [
  ...[IGNORED, SIGN, STOP, PAIN, HOLD, LOUDNESS],
  { guard: heard('pace'), actions: ['showHeard', 'adjustVoice'] },
  ...[moved('go-on', 0), moved('onward', 0), moved('anew', 0), moved('skip', 1), moved('back', -1)],
  NOT_TAKEN,
] as const;

/**
 * One speaker leads a group: the plan plays by itself, whoever says nothing. The leader may hold
 * it, go on, do a turn once more, skip it or go back; what is left is planned anew each time, to
 * the end that was promised. Only a yes ends it early. Its output is how it ended.
 */
export const warmUpMachine = setUp.createMachine({
  id: 'warmUp',
  context: ({ input }) => {
    const { book, ports, secondsOf, warmUp } = input;
    const startedAtMilliseconds = ports.clock.now();
    const stage = createStage(book, ports, secondsOf, startedAtMilliseconds, () => undefined);
    const none: ReadonlySet<number> = new Set();
    const left: Left = {
      ...{ done: 0, isUnderway: false, skipped: none, where: null, isShortest: false },
    };
    const { plan, isLate } = planned(input, left);
    return {
      ...{ ...input, stage, plan, planStartsAtMilliseconds: startedAtMilliseconds },
      ...{ turn: 0, worked: none, isUnderway: false, reason: 'completed' },
      count: turnsOf(book, warmUp, secondsOf).length,
      ...(isLate
        ? { endsAtMilliseconds: null, isShortest: true, aside: say(book.lines, 'group.late', {}) }
        : { isShortest: false, aside: '' }),
    };
  },
  invoke: {
    src: 'hearing',
    input: ({ context: { ports, book, settings, callWord, stage } }) => ({
      ...{ ear: ports.ear, book, settings, callWord, stage },
    }),
  },
  initial: 'choosing',
  states: {
    /** What cannot be kept of a promise is said before anything goes on. */
    choosing: { always: [{ guard: 'isLate', target: 'sayingLate' }, 'playing'] },
    sayingLate: {
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: [context.aside] }),
      },
      on: {
        SPOKEN: { target: 'playing', actions: [{ type: 'planAnew', params: 0 }, 'clearAside'] },
      },
    },
    playing: {
      entry: 'attendIdle',
      invoke: {
        src: 'playing',
        input: ({ context: { stage, plan, planStartsAtMilliseconds } }) => ({
          ...{ stage, plan, startedAtMilliseconds: planStartsAtMilliseconds },
        }),
      },
      on: {
        TURN: { actions: ['takeTurn', 'showTurn'] },
        WORK: { actions: 'takeWork' },
        PLAYED: 'done',
        DEAF: {
          target: 'sayingDeaf',
          actions: ['showDeaf', { type: 'setLine', params: 'say.deaf' }],
        },
      },
    },
    /** A leader who calls "stop" to nobody must know; then the turn goes on, told anew. */
    sayingDeaf: {
      entry: 'attendIdle',
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: [context.aside] }),
      },
      on: {
        SPOKEN: { target: 'choosing', actions: ['clearAside', { type: 'planAnew', params: 0 }] },
      },
    },
    held: {
      entry: ['attendIdle', 'showHeld'],
      on: { HEARD: AT_REST, SO_FAR: { guard: 'takesSoFar', actions: 'heardSoFar' } },
    },
    sayingAside: {
      entry: 'attendIdle',
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: [context.aside] }),
      },
      on: { SPOKEN: { target: 'held', actions: 'clearAside' }, HEARD: AT_REST },
    },
    askingEnd: {
      invoke: {
        id: 'question',
        src: 'question',
        input: ({ context: { stage, book } }) => ({
          ...{ stage, prompt: 'confirm', side: null, kept: null, openedAtMilliseconds: null },
          ask: say(book.lines, 'confirm.end-warm-up', {}),
          // Silence is no yes; a group that was stopped goes on only when it is told to.
          mayStayUnanswered: true,
        }),
        onDone: [
          {
            guard: { type: 'saysEnd', params: ({ event }) => event.output.reading },
            target: 'done',
            actions: { type: 'become', params: 'stopped' },
          },
          { target: 'held' },
        ],
      },
      on: {
        HEARD: [
          SIGN,
          { guard: heard('stop'), actions: ['halt', 'showHeard', 'askAnew'] },
          PAIN,
          moved('go-on', 0),
          { actions: ['showHeard', 'pass'] },
        ],
        SO_FAR: { actions: 'pass' },
        ONSET: { actions: 'pass' },
        NOTHING: { actions: 'pass' },
      },
    },
    ending: {
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: [context.aside] }),
      },
      on: {
        SPOKEN: 'done',
        HEARD: [
          { guard: heard('stop'), target: 'done', actions: ['halt', 'showHeard'] },
          { actions: 'showHeard' },
        ],
      },
    },
    done: { type: 'final' },
  },
  on: {
    HEARD: [
      IGNORED,
      SIGN,
      STOP,
      PAIN,
      HOLD,
      LOUDNESS,
      {
        guard: heard('pace'),
        target: '.choosing',
        actions: ['showHeard', 'adjustVoice', 'clearAside', { type: 'planAnew', params: 0 }],
      },
      // It goes on already.
      { guard: heard('go-on'), actions: 'showHeard' },
      moved('anew', 0),
      moved('skip', 1),
      moved('onward', 1),
      moved('back', -1),
      NOT_TAKEN,
    ],
    DEAF: { actions: 'showDeaf' },
  },
  output: ({ context }) => context.reason,
});
