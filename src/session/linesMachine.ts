import { assign, sendParent, setup } from 'xstate';
import type { PacedLine, PacedPhase } from '../domain/pacing/line';
import type { LevelOn } from '../ports';
import { leveling, type LevelRead } from './leveling';
import { performingLine, type LinePerformed } from './performing';
import type { Stage } from './stage';

export interface LinesInput {
  stage: Stage;
  lines: PacedLine[];
  /** Where to begin: 0, or where a pause left off. */
  from: number;
  /** A phone on the upper arm tells the angle of its holds. */
  measuresArm?: boolean;
}

export type LinesEvent =
  LinePerformed | LevelRead | { type: 'READY' } | { type: 'REP' } | { type: 'REPEAT' };

interface LinesContext extends LinesInput {
  index: number;
  /** When the current line starts: the exact end of the one before, milliseconds. */
  startMilliseconds: number;
}

const nextRep = ({ lines, index }: LinesContext): number => {
  const rep = lines[index]?.rep ?? null;
  const found = lines.findIndex((line, at) => at > index && line.rep !== rep);
  return found < 0 ? lines.length : found;
};

const machine = setup({
  types: {} as { context: LinesContext; events: LinesEvent; input: LinesInput },
  actors: { performingLine, leveling },
  actions: {
    reportLine: ({ context }) => context.stage.report({ type: 'AT_LINE', index: context.index }),
    goOn: assign(({ context, event }) => ({
      index: context.index + 1,
      startMilliseconds:
        event.type === 'LINE_PERFORMED' ? event.endedAtMilliseconds : context.stage.clock.now(),
    })),
    skipRep: assign(({ context }) => ({
      index: nextRep(context),
      startMilliseconds: context.stage.clock.now(),
    })),
    startAgain: assign({ startMilliseconds: ({ context }) => context.stage.clock.now() }),
  },
  guards: {
    finished: ({ context }) => context.index >= context.lines.length,
    isPhase: ({ context }, phase: PacedPhase) => context.lines[context.index]?.phase === phase,
  },
});

type On = Parameters<typeof machine.createStateConfig>[0]['on'];

const performed = {
  src: 'performingLine',
  input: ({ context }: { context: LinesContext }) => ({
    stage: context.stage,
    line: context.lines[context.index] as PacedLine,
    startMilliseconds: context.startMilliseconds,
  }),
} as const;
const leveled = (onOf: (context: LinesContext) => LevelOn | null) =>
  ({
    src: 'leveling',
    input: ({ context }: { context: LinesContext }) => ({
      stage: context.stage,
      on: onOf(context),
      index: context.index,
    }),
  }) as const;

const inPhase = (on: On = {}, level?: ReturnType<typeof leveled>) =>
  machine.createStateConfig({
    entry: 'reportLine',
    invoke: level === undefined ? performed : [performed, level],
    on: {
      LINE_PERFORMED: { target: 'choosing', actions: 'goOn' },
      REPEAT: { target: 'choosing', actions: 'startAgain' },
      ...on,
    },
  });

const rep = { REP: { target: 'choosing', actions: 'skipRep' } } as const;

/** Performs the planned lines of a check or set, one phase after the other. */
export const linesMachine = machine.createMachine({
  id: 'lines',
  context: ({ input }) => ({
    ...input,
    index: input.from,
    startMilliseconds: input.stage.clock.now(),
  }),
  initial: 'choosing',
  states: {
    choosing: {
      always: [
        { guard: 'finished', target: 'finished' },
        { guard: { type: 'isPhase', params: 'cueing' }, target: 'cueing' },
        { guard: { type: 'isPhase', params: 'settling' }, target: 'settling' },
        { guard: { type: 'isPhase', params: 'exhaling' }, target: 'exhaling' },
        { guard: { type: 'isPhase', params: 'holding' }, target: 'holding' },
        { guard: { type: 'isPhase', params: 'repeating' }, target: 'repeating' },
        { guard: { type: 'isPhase', params: 'pausingAtKnee' }, target: 'pausingAtKnee' },
        { guard: { type: 'isPhase', params: 'resting' }, target: 'resting' },
      ],
    },
    cueing: inPhase(),
    settling: inPhase({ READY: { target: 'choosing', actions: 'goOn' } }),
    exhaling: inPhase(),
    holding: inPhase(
      {},
      leveled(({ measuresArm }) => (measuresArm === true ? 'upper-arm' : null)),
    ),
    repeating: inPhase(rep),
    pausingAtKnee: inPhase(
      rep,
      leveled(() => 'shin'),
    ),
    resting: inPhase({ READY: { target: 'choosing', actions: 'goOn' } }),
    finished: { type: 'final' },
  },
  on: { LEVEL_READ: { actions: sendParent(({ event }) => event) } },
});
