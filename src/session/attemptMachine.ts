import { assign, sendTo, setup } from 'xstate';
import type { Side } from '../domain/areas';
import type { PacedLine } from '../domain/pacing/line';
import type { PromptId } from '../domain/script';
import { isLost, supported, type LevelReads, type Told } from './leveled';
import type { LevelRead } from './leveling';
import { linesMachine } from './linesMachine';
import {
  questionMachine,
  type HeardReading,
  type HeardSoFar,
  type QuestionOutput,
} from './questionMachine';
import type { Stage } from './stage';
import type { Weighed } from './weighing';

/** Where an interrupted attempt goes on. */
export type Place =
  | { at: 'line'; index: number }
  | { at: 'question'; prompt: PromptId; openedAtMilliseconds: number | null };

export interface AttemptInput {
  stage: Stage;
  prompt: PromptId;
  side: Side | null;
  lines: PacedLine[];
  ask: string;
  place: Place;
  /** A result that was spoken before the question opened. */
  kept: Weighed | null;
  /** A phone on the upper arm tells the angle of its holds. */
  measuresArm: boolean;
  /** For what a phone as a level may add to the question. */
  told: Told;
}

type AttemptContext = AttemptInput & QuestionOutput & { levels: LevelReads };

export type AttemptEvent =
  | HeardReading
  | { type: 'KEPT'; reading: Weighed }
  | LevelRead
  | HeardSoFar
  | { type: 'ONSET' }
  | { type: 'NOTHING' }
  | { type: 'REPEAT' }
  | { type: 'READY' }
  | { type: 'REP' }
  /** The work is over before its planned end: ask now. */
  | { type: 'FINISHED' };

/** One attempt at a check or a set: the work is paced, then its question is asked. */
const attempt = setup({
  types: {} as {
    context: AttemptContext;
    events: AttemptEvent;
    input: AttemptInput;
    output: QuestionOutput;
  },
  actors: { lines: linesMachine, question: questionMachine },
  actions: {
    attendIdle: ({ context }) => context.stage.attend('idle'),
    keep: assign({
      kept: ({ context, event }) => (event.type === 'KEPT' ? event.reading : context.kept),
    }),
    followLevel: assign({
      levels: ({ context, event }) =>
        event.type === 'LEVEL_READ' ? { ...context.levels, [event.index]: event } : context.levels,
    }),
    tellLoss: ({ context: { stage, levels } }) => {
      if (isLost(levels)) stage.report({ type: 'LEVEL_LOST' });
    },
    passToLines: sendTo('lines', ({ event }) => event as { type: 'READY' | 'REP' | 'REPEAT' }),
    passToQuestion: sendTo('question', ({ event }) => event as HeardReading),
    workIsDone: assign({
      place: ({ context: { prompt } }) => ({ at: 'question', prompt, openedAtMilliseconds: null }),
    }),
    tellWorkIsDone: ({ context: { stage, prompt } }) => stage.report({ type: 'WORK_DONE', prompt }),
  },
  guards: { isAtQuestion: ({ context }) => context.place.at === 'question' },
});

/** Two machines of one kind: a check has no reps to skip and no set to call done. */
const attemptMachine = (id: 'check' | 'set') =>
  attempt.createMachine({
    id,
    context: ({ input }) => ({ ...input, reading: null, levels: {} }),
    initial: 'choosing',
    states: {
      choosing: {
        always: [{ guard: 'isAtQuestion', target: 'asking' }, { target: 'working' }],
      },
      working: {
        entry: 'attendIdle',
        invoke: {
          id: 'lines',
          src: 'lines',
          input: ({ context }) => ({
            stage: context.stage,
            lines: context.lines,
            from: context.place.at === 'line' ? context.place.index : 0,
            measuresArm: context.measuresArm,
          }),
          onDone: { target: 'asking', actions: ['workIsDone', 'tellWorkIsDone'] },
        },
        on: {
          KEPT: { actions: 'keep' },
          LEVEL_READ: { actions: 'followLevel' },
          READY: { actions: 'passToLines' },
          REPEAT: { actions: 'passToLines' },
          ...(id === 'set' && { REP: { actions: 'passToLines' } }),
          FINISHED: { target: 'asking', actions: ['workIsDone', 'tellWorkIsDone'] },
        },
      },
      asking: {
        entry: 'tellLoss',
        invoke: {
          id: 'question',
          src: 'question',
          input: ({ context }) => ({
            stage: context.stage,
            prompt: context.prompt,
            side: context.side,
            ...supported(context.stage, context, context.levels, context.told),
            openedAtMilliseconds:
              context.place.at === 'question' ? context.place.openedAtMilliseconds : null,
            mayStayUnanswered: false,
          }),
          onDone: {
            target: 'answered',
            actions: assign(({ event }) => event.output),
          },
        },
        on: {
          HEARD: { actions: 'passToQuestion' },
          KEPT: { actions: 'passToQuestion' },
          SO_FAR: { actions: 'passToQuestion' },
          ONSET: { actions: 'passToQuestion' },
          NOTHING: { actions: 'passToQuestion' },
          REPEAT: { actions: 'passToQuestion' },
        },
      },
      answered: { type: 'final' },
    },
    output: ({ context }) => ({ reading: context.reading }),
  });

export const checkMachine = attemptMachine('check');
export const setMachine = attemptMachine('set');
