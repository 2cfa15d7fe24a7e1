import { createActor } from 'xstate';
import type { CueBook } from '../../domain/script';
import type { SoundHeard } from '../../domain/hearing/microphoneAdvice';
import type { MicrophoneRun } from '../../screens/microphone/state';
import {
  howHeard,
  isStopOver,
  repliesToSay,
  steerOf,
  steerOfReply,
  type Steer,
} from '../../session/microphoneCheck';
import {
  microphoneCheckMachine,
  type MicrophoneCheckInput,
} from '../../session/microphoneCheckMachine';
import { MicrophoneMeasure } from '../../session/microphoneCheckMeasuring';
import { advisedOf, CHECK_LINES } from './words';

/** A check of the microphone that runs. */
export interface MicrophoneCheck {
  /** What the ear tells of the sound. */
  hear(sound: SoundHeard): void;
  steer(to: Steer): void;
  /** Ends it without a word. */
  leave(): void;
}

/** Begins a check; `show` is told of each change, `stopped` once a stop was heard. */
export function startMicrophoneCheck({
  book,
  show,
  stopped,
  ...ports
}: Pick<MicrophoneCheckInput, 'ear' | 'voice' | 'tones' | 'clock' | 'known' | 'onSight'> & {
  book: CueBook;
  show: (run: MicrophoneRun) => void;
  stopped: () => void;
}): MicrophoneCheck {
  const measure = new MicrophoneMeasure();
  const actor = createActor(microphoneCheckMachine, {
    input: {
      ...ports,
      measure,
      replies: repliesToSay(book),
      lines: CHECK_LINES,
      understanding: {
        howHeard: (reply, words) => howHeard(book, reply, words),
        steer: (words) => steerOf(book, words),
        steerByHand: (reply) => steerOfReply(reply),
        isStopOver: (words, line) => isStopOver(book, words, line),
      },
    },
  });
  actor.subscribe(({ value, context }) => {
    const stage = typeof value === 'string' ? value : value.checking;
    if (stage === 'stopped') return stopped();
    const { left, isAgain, isMute, wasHidden, replies, heard, result, before } = context;
    show({
      stage: stageOf(String(stage)),
      line: left[0]?.text ?? null,
      ...{ isAgain, isMute, wasHidden, heard, before },
      of: replies.length,
      result: result === null ? null : { ...result, advised: advisedOf(result) },
    });
  });
  actor.start();
  return {
    hear: (sound) => measure.hear(sound),
    steer: (to) => actor.send({ type: 'STEER', to }),
    leave: () => actor.stop(),
  };
}

const STAGES = [
  ...(['introducing', 'walking', 'room', 'asking', 'listening', 'telling'] as const),
  ...(['deaf', 'hidden', 'finished'] as const),
];
/** While the advice is said it is shown already. */
const stageOf = (state: string): MicrophoneRun['stage'] =>
  STAGES.find((stage) => stage === state) ?? 'finished';
