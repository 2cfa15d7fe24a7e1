import { assign, setup } from 'xstate';
import type { Reading } from '../domain/hearing/reply';
import type { EndReason, SessionSettings } from '../domain/log';
import { say } from '../domain/saying';
import type { CueBook } from '../domain/script';
import { planWarmUp, type WarmUpPlan } from '../domain/warmUp/planning';
import type { WarmUp } from '../domain/warmUp/warmUp';
import type { Ports, VoiceChange } from '../ports';
import { isPain } from './answerFacts';
import { hearing, type HearingEvent } from './hearing';
import { playingWarmUp, type PlayingEvent } from './playingWarmUp';
import { questionMachine } from './questionMachine';
import { speaking, type SpokenEvent } from './speaking';
import { createStage, type Stage } from './stage';

export interface WarmUpInput {
  book: CueBook;
  ports: Omit<Ports, 'records'>;
  /** How long a text takes to say at the usual pace, in seconds. */
  secondsOf: (text: string) => number;
  settings: SessionSettings;
  /** The word after which alone the leader's words count; null where there is none. */
  callWord: string | null;
  warmUp: WarmUp;
  /** It was promised to end then, milliseconds since 1970; null where nothing was. */
  endsAtMilliseconds: number | null;
}

type Meaning =
  | 'ignored'
  | 'sign'
  | 'stop'
  | 'pain'
  | 'hold'
  | 'go-on'
  | 'anew'
  | 'skip'
  | 'back'
  | 'manner'
  | 'not-taken';

export interface WarmUpContext extends WarmUpInput {
  stage: Stage;
  /** What plays, from its own second 0 on. */
  plan: WarmUpPlan;
  planStartsAtMilliseconds: number;
  /** Turns of the whole that lie before the plan, and the one of it that is on. */
  done: number;
  turn: number;
  /** The first turn has begun: nobody is welcomed again. */
  isUnderway: boolean;
  aside: string;
  reason: EndReason;
}

type WarmUpEvent = HearingEvent | SpokenEvent | PlayingEvent;

/** The leader needs few words: hold, go on, one more, skip, back; stop comes before them all. */
function meaningOf({ reply, verdict }: Reading): Meaning {
  if (verdict === 'ignore' || reply === null) return 'ignored';
  if (reply.redFlag !== null) return 'sign';
  if (reply.command === 'stop') return 'stop';
  if (isPain(reply)) return 'pain';
  if (verdict !== 'accept') return 'not-taken';
  switch (reply.command) {
    case 'pause':
      return 'hold';
    case 'resume':
    case 'ready':
      return 'go-on';
    case 'again':
    case 'repeat':
      return 'anew';
    case 'skip':
    case 'next':
    case 'done':
      return 'skip';
    case 'back':
      return 'back';
    case 'louder':
    case 'quieter':
    case 'slower':
    case 'faster':
      return 'manner';
    default:
      return 'not-taken';
  }
}

/** The plan of what is left after `done` turns; as written where the promised end cannot be kept. */
function planned(
  { book, warmUp, secondsOf, ports, endsAtMilliseconds }: WarmUpInput,
  done: number,
  isUnderway: boolean,
): { plan: WarmUpPlan; isLate: boolean } {
  const stretch = ports.voice.stretch?.() ?? 1;
  const spokenSeconds = (text: string) => Math.round(secondsOf(text) * stretch * 1000) / 1000;
  const plan = (endSeconds?: number) =>
    planWarmUp(book, warmUp, spokenSeconds, { done, endSeconds, isUnderway });
  if (endsAtMilliseconds !== null) {
    const kept = plan((endsAtMilliseconds - ports.clock.now()) / 1000);
    if (!('leastSeconds' in kept)) return { plan: kept, isLate: false };
  }
  const asWritten = plan();
  if ('leastSeconds' in asWritten) throw new Error('A warm-up as it is written has no plan.');
  return { plan: asWritten, isLate: endsAtMilliseconds !== null };
}

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
    halt: ({ context: { stage } }) => {
      stage.hush();
      stage.tone('halted');
    },
    showHeld: ({ context }) =>
      context.stage.show({ type: 'phase', phase: 'paused', seconds: null }),
    notUnderstood: ({ context }) => context.stage.tone('not-understood'),
    adjustVoice: ({ context, event }) => {
      if (event.type !== 'HEARD') return;
      context.ports.voice.adjust(event.reading.reply?.command as VoiceChange);
    },
    showHeard: ({ context, event }) => {
      if (event.type !== 'HEARD') return;
      const { heard: text, verdict, readback } = event.reading;
      context.stage.show({ type: 'heard', text, verdict, readback });
    },
    showDeaf: ({ context, event }) => {
      if (event.type === 'DEAF')
        context.stage.show({ type: 'trouble', what: event.why, say: null });
    },
    takeTurn: assign(({ event }) =>
      event.type === 'TURN' ? { turn: event.index, isUnderway: true } : {},
    ),
    showTurn: ({ context: { stage, plan, turn, done } }) => {
      stage.show({
        ...{ type: 'step', prompt: 'idle', side: null, rung: null },
        ...{ set: done + turn + 1, of: done + plan.turns.length },
      });
      const on = plan.turns[turn];
      if (on === undefined) return;
      const seconds = on.workAtSeconds - on.atSeconds;
      stage.show({ type: 'phase', phase: 'settling', seconds });
    },
    /** Plans what is left anew, from the turn that is on and so many further. */
    planAnew: assign(({ context }, by: number) => {
      const done = Math.max(0, context.done + context.turn + by);
      const { plan, isLate } = planned(context, done, context.isUnderway);
      return {
        ...{ plan, done, turn: 0, planStartsAtMilliseconds: context.ports.clock.now() },
        ...(isLate && {
          endsAtMilliseconds: null,
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
    means: ({ event }, meaning: Meaning) =>
      event.type === 'HEARD' && meaningOf(event.reading) === meaning,
    saysEnd: (_, reading: Reading | null) => reading?.reply?.command === 'yes',
    isLate: ({ context }) => context.aside !== '',
  },
});

const heard = (meaning: Meaning) => ({ type: 'means', params: meaning }) as const;
const stops = [
  {
    guard: heard('sign'),
    target: '#warmUp.ending',
    actions: [
      'halt',
      'showHeard',
      { type: 'setLine', params: 'group.sign' },
      { type: 'become', params: 'red-flag' },
    ],
  },
  { guard: heard('stop'), target: '#warmUp.askingEnd', actions: ['halt', 'showHeard'] },
  {
    guard: heard('pain'),
    target: '#warmUp.sayingAside',
    actions: ['halt', 'showHeard', { type: 'setLine', params: 'group.pain' }],
  },
] as const;

/**
 * One speaker leads a group: the plan plays by itself, whoever says nothing. The leader may hold
 * it, go on, do a turn once more, skip it or go back; what is left is planned anew each time, to
 * the end that was promised. Only a yes ends it early. Its output is how it ended.
 */
export const warmUpMachine = setUp.createMachine({
  id: 'warmUp',
  context: ({ input }) => {
    const { book, ports, secondsOf } = input;
    const startedAtMilliseconds = ports.clock.now();
    const stage = createStage(book, ports, secondsOf, startedAtMilliseconds, () => undefined);
    const { plan, isLate } = planned(input, 0, false);
    return {
      ...{ ...input, stage, plan, planStartsAtMilliseconds: startedAtMilliseconds },
      ...{ done: 0, turn: 0, isUnderway: false, reason: 'completed' },
      ...(isLate
        ? { endsAtMilliseconds: null, aside: say(book.lines, 'group.late', {}) }
        : { aside: '' }),
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
        PLAYED: 'done',
      },
    },
    held: { entry: ['attendIdle', 'showHeld'] },
    sayingAside: {
      entry: 'attendIdle',
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: [context.aside] }),
      },
      on: { SPOKEN: { target: 'held', actions: 'clearAside' } },
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
          stops[0],
          { guard: heard('stop'), actions: ['halt', 'showHeard', 'askAnew'] },
          stops[2],
          {
            guard: heard('go-on'),
            target: 'choosing',
            actions: ['showHeard', { type: 'planAnew', params: 0 }],
          },
          { actions: ['showHeard', 'pass'] },
        ],
        ONSET: { actions: 'pass' },
        NOTHING: { actions: 'pass' },
      },
    },
    ending: {
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: [context.aside] }),
      },
      on: { SPOKEN: 'done', HEARD: { actions: 'showHeard' } },
    },
    done: { type: 'final' },
  },
  on: {
    HEARD: [
      { guard: heard('ignored'), actions: 'showHeard' },
      ...stops,
      { guard: heard('hold'), target: '.held', actions: 'showHeard' },
      {
        guard: heard('manner'),
        target: '.choosing',
        actions: ['showHeard', 'adjustVoice', { type: 'planAnew', params: 0 }],
      },
      ...(
        [
          ['go-on', 0],
          ['anew', 0],
          ['skip', 1],
          ['back', -1],
        ] as const
      ).map(([meaning, params]) => ({
        guard: heard(meaning),
        target: '.choosing' as const,
        actions: ['showHeard', { type: 'planAnew', params }] as const,
      })),
      { actions: ['showHeard', 'notUnderstood'] },
    ],
    DEAF: { actions: 'showDeaf' },
  },
  output: ({ context }) => context.reason,
});
