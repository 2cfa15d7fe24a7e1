import { assign, forwardTo, setup } from 'xstate';
import type { Side } from '../domain/areas';
import type { Reading } from '../domain/hearing/reply';
import { say, sentenceOf } from '../domain/saying';
import type { PromptId } from '../domain/script';
import { answers } from './answering';
import { deadline, type DeadlinePassed } from './deadline';
import { lacksAngle, withAngle, type ArmAngle } from './leveled';
import * as reacting from './reacting';
import { speaking, type SpokenEvent } from './speaking';
import type { Stage } from './stage';
import type { Weighed } from './weighing';

/** A question is asked again after these seconds; after the last, it waits, still open. */
export const ASK_AGAIN_SECONDS = [8, 16] as const;
export const WAIT_FROM_SECONDS = 30;
const DEADLINES = [...ASK_AGAIN_SECONDS, WAIT_FROM_SECONDS];

export interface QuestionInput {
  stage: Stage;
  prompt: PromptId;
  side: Side | null;
  ask: string;
  /** A reply heard before the question opened, offered instead of asking. */
  kept: Weighed | null;
  /** When the question first opened, milliseconds, where it is being opened again. */
  openedAtMilliseconds: number | null;
  /** Silence to the end settles it as unanswered (pain questions), instead of waiting. */
  mayStayUnanswered: boolean;
  /** An angle that the phone as a level told, to be offered with the answer. */
  arm?: ArmAngle | null;
}

export type HeardReading = { type: 'HEARD'; reading: Weighed };
export type HeardSoFar = { type: 'SO_FAR'; reading: Weighed };

export type QuestionEvent =
  | HeardReading
  | HeardSoFar
  | { type: 'KEPT'; reading: Weighed }
  | { type: 'ONSET' }
  | { type: 'NOTHING' }
  | { type: 'REPEAT' }
  | SpokenEvent
  | DeadlinePassed;

interface QuestionContext extends QuestionInput {
  /** Deadlines that have passed: asks that stayed without an answer. */
  passed: number;
  offered: Weighed | null;
  /** What was heard without its grade. */
  lacking: Reading | null;
  answer: Weighed | null;
  /** An answer without the angle that is offered with it. */
  bare: Weighed | null;
}

export interface QuestionOutput {
  /** Null where it stayed unanswered. */
  reading: Weighed | null;
}

/**
 * One question: asks, listens after a soft tone, offers what is unsure for a yes or a no, asks
 * again into silence, and then waits. Silence never answers.
 */
export const questionMachine = setup({
  types: {} as {
    context: QuestionContext;
    events: QuestionEvent;
    input: QuestionInput;
    output: QuestionOutput;
  },
  actors: { speaking, deadline },
  actions: {
    attendPrompt: ({ context }) => context.stage.attend(context.prompt),
    attendConfirm: ({ context }) => context.stage.attend('confirm'),
    open: assign({
      openedAtMilliseconds: ({ context }) =>
        context.openedAtMilliseconds ?? context.stage.clock.now(),
    }),
    tellOpened: ({ context: { stage, prompt, side, openedAtMilliseconds } }) => {
      stage.tone('listening');
      stage.show({ type: 'phase', phase: 'listening', seconds: null });
      stage.show({ type: 'listen', prompt });
      const opened = openedAtMilliseconds ?? stage.clock.now();
      stage.report({ type: 'OPENED', prompt, side, openedAtMilliseconds: opened });
    },
    tellConfirmOpened: ({ context: { stage } }) => {
      stage.tone('listening');
      stage.show({ type: 'listen', prompt: 'confirm' });
    },
    showAsking: ({ context }) =>
      context.stage.show({ type: 'phase', phase: 'asking', seconds: null }),
    showConfirming: ({ context }) =>
      context.stage.show({ type: 'phase', phase: 'confirming', seconds: null }),
    tellOffered: ({ context: { stage, prompt, side, offered } }) => {
      if (offered !== null) stage.report({ type: 'OFFERED', prompt, side, reading: offered });
    },
    showWaiting: ({ context }) =>
      context.stage.show({ type: 'phase', phase: 'waiting', seconds: null }),
    heardSoFar: ({ context }) => reacting.heardSoFar(context.stage),
    notUnderstood: ({ context }) => context.stage.tone('not-understood'),
    countDeadline: assign({ passed: ({ context }) => context.passed + 1 }),
    answer: assign({
      answer: ({ event, context }) => (event.type === 'HEARD' ? event.reading : context.answer),
    }),
    attendIdle: ({ context }) => context.stage.attend('idle'),
    lack: assign({
      lacking: ({ event, context }) => (event.type === 'HEARD' ? event.reading : context.lacking),
    }),
    answerOffered: assign({
      // What a level offers nobody has said: the words of the answer are the yes.
      answer: ({ context: { offered }, event }) =>
        offered?.measured !== undefined && event.type === 'HEARD'
          ? {
              ...offered,
              heard: wordsOf(offered, event.reading),
              confidence: event.reading.confidence,
            }
          : offered,
    }),
    answerBare: assign({ answer: ({ context }) => context.bare }),
    offerAngle: assign(({ context: { stage, arm }, event }) =>
      event.type !== 'HEARD' || arm == null
        ? {}
        : { offered: withAngle(stage, event.reading, arm), bare: event.reading, arm: null },
    ),
    offer: assign({
      offered: ({ event, context }) =>
        event.type === 'HEARD' || event.type === 'KEPT' ? event.reading : context.offered,
      kept: null,
    }),
    offerKept: assign({ offered: ({ context }) => context.kept, kept: null }),
    dropOffer: assign({
      offered: null,
      bare: null,
      // The question opens anew: it was answered wrongly, not left in silence.
      openedAtMilliseconds: null,
      passed: 0,
    }),
    reopen: assign({ openedAtMilliseconds: null, passed: 0 }),
  },
  guards: {
    hasKept: ({ context }) => context.kept !== null,
    lacksAngle: ({ event, context }) =>
      event.type === 'HEARD' && context.arm != null && lacksAngle(context.prompt, event.reading),
    refusesAngle: ({ event, context }) => context.bare !== null && isCommand(event, 'no'),
    settles: ({ event, context }) =>
      event.type === 'HEARD' &&
      event.reading.verdict === 'accept' &&
      answers(context.prompt, event.reading.reply),
    settlesSoFar: ({ event, context }) =>
      event.type === 'SO_FAR' &&
      event.reading.verdict === 'accept' &&
      answers(context.prompt, event.reading.reply),
    settlesOfferSoFar: ({ event }) =>
      event.type === 'SO_FAR' &&
      event.reading.verdict === 'accept' &&
      (event.reading.settled === true || isYesOrNo(event.reading)),
    offers: ({ event, context }) =>
      event.type === 'HEARD' &&
      event.reading.verdict === 'confirm' &&
      context.prompt !== 'confirm' &&
      (answers(context.prompt, event.reading.reply) || event.reading.other !== undefined),
    lacksGrade: ({ event, context }) =>
      event.type === 'HEARD' &&
      /^(check|set)\//.test(context.prompt) &&
      event.reading.verdict === 'confirm' &&
      event.reading.reply?.result == null &&
      (event.reading.asks === 'limited-or-lost' ||
        event.reading.asks === 'grade' ||
        event.reading.asks === 'one-side'),
    asksWhich: ({ event }) => event.type === 'HEARD' && isBareBack(event.reading),
    saysYes: ({ event, context }) =>
      isCommand(event, 'yes') && context.offered?.other === undefined,
    // A yes to two names neither: as between people, it is asked once more.
    saysYesToBoth: ({ event }) => isCommand(event, 'yes'),
    settlesOffer: ({ event, context }) =>
      event.type === 'HEARD' &&
      event.reading.settled === true &&
      event.reading.verdict === 'accept' &&
      answers(context.prompt, event.reading.reply),
    lacksGradeStill: ({ event }) =>
      event.type === 'HEARD' &&
      event.reading.settled === true &&
      event.reading.asks === 'limited-or-lost',
    saysNo: ({ event }) => isCommand(event, 'no'),
    isAnotherAnswer: ({ event, context }) =>
      event.type === 'HEARD' &&
      event.reading.verdict !== 'ignore' &&
      answers(context.prompt, event.reading.reply),
    asksRemain: ({ context }) => context.passed < ASK_AGAIN_SECONDS.length,
    endsUnanswered: ({ context }) => context.mayStayUnanswered,
    waits: ({ context }) => context.passed >= DEADLINES.length,
  },
}).createMachine({
  id: 'question',
  context: ({ input }) => ({
    ...input,
    // A pain question that was left open is asked anew: it must not lapse while nobody was there.
    openedAtMilliseconds: input.mayStayUnanswered ? null : input.openedAtMilliseconds,
    passed: input.mayStayUnanswered ? 0 : deadlinesPassed(input),
    offered: null,
    lacking: null,
    answer: null,
    bare: null,
  }),
  initial: 'choosing',
  states: {
    choosing: {
      always: [{ guard: 'hasKept', target: 'confirming', actions: 'offerKept' }, 'asking'],
    },
    asking: {
      entry: ['showAsking', 'attendPrompt'],
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: [context.ask], isQuestion: true }),
      },
      on: { SPOKEN: [{ guard: 'waits', target: 'waiting' }, 'listening'] },
    },
    listening: {
      entry: ['open', 'attendPrompt', 'tellOpened'],
      invoke: {
        id: 'deadline',
        src: 'deadline',
        input: ({ context }) => ({
          clock: context.stage.clock,
          atMilliseconds: deadlineOf(context),
        }),
      },
      on: {
        DEADLINE: [
          { guard: 'asksRemain', target: 'asking', actions: 'countDeadline' },
          { guard: 'endsUnanswered', target: 'answered' },
          { target: 'sayingWaiting', actions: 'countDeadline' },
        ],
        ONSET: { actions: forwardTo('deadline') },
        NOTHING: { actions: [forwardTo('deadline')] },
        SO_FAR: { guard: 'settlesSoFar', actions: 'heardSoFar' },
      },
    },
    sayingWaiting: {
      entry: 'showWaiting',
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({
          stage: context.stage,
          texts: [say(context.stage.book.lines, 'say.waiting', {})],
        }),
      },
      on: { SPOKEN: 'waiting' },
    },
    waiting: {
      entry: ['attendPrompt', 'tellOpened', 'showWaiting'],
      on: { SO_FAR: { guard: 'settlesSoFar', actions: 'heardSoFar' } },
    },
    askingWhich: {
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({
          stage: context.stage,
          texts: [say(context.stage.book.lines, 'say.which', {})],
          isQuestion: true,
        }),
      },
      on: { SPOKEN: { target: 'listening', actions: 'reopen' } },
    },
    askingGrade: {
      // What is asked names replies, so none of them is taken while it is spoken.
      entry: ['showAsking', 'attendIdle'],
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({
          stage: context.stage,
          texts: [gradeAsked(context)],
          isQuestion: true,
        }),
      },
      on: { SPOKEN: { target: 'listening', actions: 'reopen' }, KEPT: {} },
    },
    confirming: {
      initial: 'offering',
      entry: ['reopen', 'showConfirming', 'attendConfirm'],
      states: {
        offering: {
          entry: 'tellOffered',
          invoke: {
            src: 'speaking',
            input: ({ context }) => ({
              stage: context.stage,
              texts: [offerOf(context)],
              isQuestion: true,
            }),
          },
          on: { SPOKEN: 'listening' },
        },
        listening: {
          entry: ['open', 'tellConfirmOpened'],
          invoke: {
            id: 'confirmDeadline',
            src: 'deadline',
            input: ({ context }) => ({
              clock: context.stage.clock,
              atMilliseconds: deadlineOf(context),
            }),
          },
          on: {
            DEADLINE: [
              { guard: 'asksRemain', target: 'offering', actions: 'countDeadline' },
              { target: '#question.sayingWaiting', actions: 'dropOffer' },
            ],
            ONSET: { actions: forwardTo('confirmDeadline') },
            NOTHING: { actions: forwardTo('confirmDeadline') },
            SO_FAR: { guard: 'settlesOfferSoFar', actions: 'heardSoFar' },
          },
        },
      },
      on: {
        HEARD: [
          { guard: 'settlesOffer', target: 'answered', actions: 'answer' },
          { guard: 'saysYes', target: 'answered', actions: 'answerOffered' },
          { guard: 'saysYesToBoth', target: '.offering', reenter: true },
          { guard: 'lacksGradeStill', target: 'askingGrade', actions: 'lack' },
          { guard: 'refusesAngle', target: 'answered', actions: 'answerBare' },
          { guard: 'saysNo', target: 'asking', actions: 'dropOffer' },
          {
            guard: 'isAnotherAnswer',
            target: '.offering',
            actions: ['offer', 'reopen'],
            reenter: true,
          },
          { actions: 'notUnderstood' },
        ],
        REPEAT: { target: '.offering', reenter: true },
      },
    },
    answered: { type: 'final' },
  },
  on: {
    HEARD: [
      { guard: 'lacksAngle', target: '.confirming', actions: 'offerAngle' },
      { guard: 'settles', target: '.answered', actions: 'answer' },
      { guard: 'asksWhich', target: '.askingWhich' },
      { guard: 'offers', target: '.confirming', actions: 'offer' },
      { guard: 'lacksGrade', target: '.askingGrade', actions: 'lack' },
      { actions: 'notUnderstood' },
    ],
    KEPT: { target: '.confirming', actions: 'offer' },
    REPEAT: { target: '.asking', actions: 'reopen' },
  },
  output: ({ context }) => ({ reading: context.answer }),
});

const isCommand = (event: QuestionEvent, command: 'yes' | 'no'): boolean =>
  event.type === 'HEARD' &&
  event.reading.verdict === 'accept' &&
  event.reading.reply?.command === command;

const isYesOrNo = ({ reply }: Reading): boolean =>
  reply?.command === 'yes' || reply?.command === 'no';

const wordsOf = (offered: Reading, yes: Reading): string =>
  [offered.heard, yes.heard].filter(Boolean).join(', ');

const isBareBack = (reading: Reading): boolean =>
  reading.verdict === 'confirm' && reading.reply?.command === 'back';

const deadlineOf = ({ openedAtMilliseconds, passed, stage }: QuestionContext): number =>
  (openedAtMilliseconds ?? stage.clock.now()) +
  (DEADLINES[Math.min(passed, DEADLINES.length - 1)] as number) * 1000;

/** How many deadlines of a question opened earlier have gone by already. */
const deadlinesPassed = ({ openedAtMilliseconds, stage }: QuestionInput): number => {
  if (openedAtMilliseconds === null) return 0;
  const openSeconds = (stage.clock.now() - openedAtMilliseconds) / 1000;
  return DEADLINES.filter((seconds) => seconds <= openSeconds).length;
};

const offerOf = ({ stage, offered }: QuestionContext): string =>
  offered?.offers ??
  sentenceOf(
    say(stage.book.lines, 'confirm.offer', { readback: offered?.readback ?? offered?.heard ?? '' }),
  );

function gradeAsked({ stage, side, lacking }: QuestionContext): string {
  const { lines, vocabulary } = stage.book;
  if (lacking?.asks === 'one-side')
    return say(lines, 'confirm.one-side', {
      side: vocabulary.sides[side ?? 'left'].readback,
    });
  if (lacking?.asks !== 'grade') return say(lines, 'confirm.limited-or-lost', {});
  return sentenceOf(say(lines, 'confirm.grade', { readback: lacking.readback ?? '' }));
}
