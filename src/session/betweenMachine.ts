import { assign, setup } from 'xstate';
import type { RedFlag } from '../domain/findings';
import type { Reading } from '../domain/hearing/reply';
import type { SessionSettings } from '../domain/log';
import { say } from '../domain/saying';
import type { CueBook } from '../domain/script';
import type { Ports } from '../ports';
import { isPain } from './answerFacts';
import { hearing, type HearingEvent } from './hearing';
import { questionMachine } from './questionMachine';
import * as reacting from './reacting';
import { speaking, type SpokenEvent } from './speaking';
import { createStage, type Stage } from './stage';

export interface BetweenInput {
  book: CueBook;
  ports: Omit<Ports, 'records'>;
  /** How long a text takes to say, in seconds. */
  secondsOf: (text: string) => number;
  settings: SessionSettings;
  /** The word after which alone replies count; null where there is none. */
  callWord: string | null;
  /** Said first, and at "repeat". */
  texts: string[];
  /** What to say where nobody can be put off; null where "next person" puts the next one off. */
  cannotPutOff: string | null;
}

/**
 * `ready`: the next session begins; `put-off`: this one comes later; `end`: the day ends; `sign`: a
 * warning sign was said, in these words, and nothing goes on before it.
 */
export type Then =
  { do: 'ready' | 'put-off' | 'end' } | { do: 'sign'; flag: RedFlag; text: string };

type Meaning =
  | reacting.NotTaken
  | 'red-flag'
  | 'stop'
  | 'pain'
  | 'ready'
  | 'put-off'
  | 'repeat'
  | 'help'
  | 'manner';

interface BetweenContext extends BetweenInput {
  stage: Stage;
  aside: string;
  then: Then;
}

type BetweenEvent = HearingEvent | SpokenEvent;

/** Between sessions few words count; stop, warning signs and pain come before all others. */
function meaningOf({ reply, verdict }: Reading): Meaning {
  if (verdict === 'ignore' || reply === null) return 'ignored';
  if (reply.redFlag !== null) return 'red-flag';
  if (reply.command === 'stop') return 'stop';
  if (isPain(reply)) return 'pain';
  if (verdict !== 'accept') return 'not-taken';
  switch (reply.command) {
    case 'ready':
    case 'repeat':
    case 'help':
      return reply.command;
    case 'skip':
    case 'next-person':
      return 'put-off';
    case 'louder':
    case 'quieter':
    case 'slower':
    case 'faster':
      return 'manner';
    default:
      return 'not-taken';
  }
}

const between = setup({
  types: {} as {
    context: BetweenContext;
    events: BetweenEvent;
    input: BetweenInput;
    output: Then;
  },
  actors: { hearing, speaking, question: questionMachine },
  actions: {
    attendIdle: ({ context }) => context.stage.attend('idle'),
    tellListening: ({ context: { stage } }) => {
      stage.tone('listening');
      stage.show({ type: 'phase', phase: 'listening', seconds: null });
      stage.show({ type: 'listen', prompt: 'idle' });
    },
    showSaying: ({ context }) =>
      context.stage.show({ type: 'phase', phase: 'cueing', seconds: null }),
    halt: ({ context }) => reacting.halt(context.stage),
    accept: ({ context }) => context.stage.tone('accepted'),
    heardSoFar: ({ context }) => reacting.heardSoFar(context.stage),
    notUnderstood: ({ context }) => context.stage.tone('not-understood'),
    adjustVoice: ({ context, event }) => reacting.adjustVoice(context.ports, event),
    showHeard: ({ context, event }) => reacting.showHeard(context.stage, event),
    showDeaf: ({ context, event }) => reacting.showDeaf(context.stage, event),
    setLine: assign(({ context }, key: string) => ({ aside: say(context.book.lines, key, {}) })),
    setCannotPutOff: assign(({ context }) => ({ aside: context.cannotPutOff ?? '' })),
    become: assign((_, then: Then) => ({ then })),
    takeSign: assign(({ event, context: { then } }): { then: Then } => {
      if (event.type !== 'HEARD') return { then };
      const { heard: text, reply } = event.reading;
      const flag = reply?.redFlag ?? null;
      return { then: flag === null ? then : { do: 'sign', flag, text } };
    }),
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
    takesSoFar: ({ event }) =>
      event.type === 'SO_FAR' && reacting.isTaken(meaningOf(event.reading)),
    mayPutOff: ({ context, event }) =>
      context.cannotPutOff === null &&
      event.type === 'HEARD' &&
      meaningOf(event.reading) === 'put-off',
    saysEnd: (_, reading: Reading | null) => reading?.reply?.command === 'yes',
  },
});

const heard = (meaning: Meaning) => ({ type: 'means', params: meaning }) as const;
/** Silent at once; what is done about it is for whoever leads the day. */
const sign = {
  guard: heard('red-flag'),
  target: '#between.done',
  actions: ['halt', 'showHeard', 'takeSign'],
} as const;
const aside = (meaning: Meaning, line: string) =>
  ({
    guard: heard(meaning),
    target: '#between.sayingAside',
    actions: ['showHeard', { type: 'setLine', params: line }],
  }) as const;

/**
 * Between two sessions of a squad day: says who is next and waits, as long as it takes. Its output
 * is what was asked for; only a yes ends the day.
 */
export const betweenMachine = between.createMachine({
  id: 'between',
  context: ({ input }) => {
    const { book, ports, secondsOf } = input;
    const stage = createStage(book, ports, secondsOf, ports.clock.now(), () => undefined);
    return { ...input, stage, aside: '', then: { do: 'end' } };
  },
  invoke: {
    src: 'hearing',
    input: ({ context: { ports, book, settings, callWord, stage } }) => ({
      ...{ ear: ports.ear, book, settings, callWord, stage },
    }),
  },
  initial: 'telling',
  states: {
    telling: {
      entry: ['attendIdle', 'showSaying'],
      invoke: {
        src: 'speaking',
        input: ({ context: { stage, texts } }) => ({ stage, texts, isQuestion: true }),
      },
      on: { SPOKEN: 'waiting' },
    },
    waiting: {
      entry: ['attendIdle', 'tellListening'],
      on: { SO_FAR: { guard: 'takesSoFar', actions: 'heardSoFar' } },
    },
    sayingAside: {
      entry: ['attendIdle', 'showSaying'],
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: [context.aside] }),
      },
      on: { SPOKEN: 'waiting' },
    },
    askingEnd: {
      invoke: {
        id: 'question',
        src: 'question',
        input: ({ context: { stage, book } }) => ({
          ...{ stage, prompt: 'confirm', side: null, kept: null, openedAtMilliseconds: null },
          ask: say(book.lines, 'confirm.end-day', {}),
          // Silence is no yes: after a while it waits for the next one as before.
          mayStayUnanswered: true,
        }),
        onDone: [
          {
            guard: {
              type: 'saysEnd',
              params: ({ event }) => event.output.reading,
            },
            target: 'done',
            actions: { type: 'become', params: { do: 'end' } },
          },
          { target: 'telling' },
        ],
      },
      on: {
        HEARD: [
          sign,
          aside('pain', 'say.pain-between'),
          { guard: heard('stop'), actions: ['halt', 'showHeard', 'askAnew'] },
          { guard: heard('repeat'), actions: ['showHeard', 'askAnew'] },
          { guard: heard('manner'), actions: ['showHeard', 'adjustVoice', 'askAnew'] },
          { actions: ['showHeard', 'pass'] },
        ],
        DEAF: {
          target: 'sayingDeaf',
          actions: ['showDeaf', { type: 'setLine', params: 'say.deaf' }],
        },
        SO_FAR: { actions: 'pass' },
        ONSET: { actions: 'pass' },
        NOTHING: { actions: 'pass' },
      },
    },
    /** The question whether to end stays open, for a hand to answer. */
    sayingDeaf: {
      entry: ['attendIdle', 'showSaying'],
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: [context.aside] }),
      },
      on: { SPOKEN: 'askingEnd' },
    },
    done: { type: 'final' },
  },
  on: {
    HEARD: [
      { guard: heard('ignored'), actions: 'showHeard' },
      sign,
      { guard: heard('stop'), target: '.askingEnd', actions: ['halt', 'showHeard'] },
      aside('pain', 'say.pain-between'),
      {
        guard: heard('ready'),
        target: '.done',
        actions: ['showHeard', 'accept', { type: 'become', params: { do: 'ready' } }],
      },
      {
        guard: 'mayPutOff',
        target: '.done',
        actions: ['showHeard', 'accept', { type: 'become', params: { do: 'put-off' } }],
      },
      {
        guard: heard('put-off'),
        target: '.sayingAside',
        actions: ['showHeard', 'setCannotPutOff'],
      },
      { guard: heard('repeat'), target: '.telling', actions: 'showHeard' },
      aside('help', 'say.help-between'),
      { guard: heard('manner'), target: '.telling', actions: ['showHeard', 'adjustVoice'] },
      { actions: ['showHeard', 'notUnderstood'] },
    ],
    DEAF: {
      target: '.sayingAside',
      actions: ['showDeaf', { type: 'setLine', params: 'say.deaf' }],
    },
  },
  output: ({ context }) => context.then,
});
