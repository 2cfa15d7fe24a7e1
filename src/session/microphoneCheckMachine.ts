import { assign, setup } from 'xstate';
import {
  adviceOf,
  standingOf,
  type Advice,
  type MicrophoneMeasured,
  type Standing,
} from '../domain/hearing/microphoneAdvice';
import type { Cancel, Clock, Ear, Tones, Voice } from '../ports';
import type { ReplyHeard, ReplyToSay } from './microphoneCheck';
import {
  listening,
  saying,
  waiting,
  watching,
  type MicrophoneCheckEvent,
  type Understanding,
} from './microphoneCheckActors';
import type { MicrophoneMeasure } from './microphoneCheckMeasuring';

export type { MicrophoneCheckEvent, Understanding } from './microphoneCheckActors';

/** What one check came to. */
export interface MicrophoneResult {
  measured: MicrophoneMeasured;
  standing: Standing;
  advice: Advice[];
  replies: ReplyHeard[];
}

/** What Sayso says, in the words of the language. */
export interface CheckLines {
  stand: string;
  ask: (reply: ReplyToSay, isAgain: boolean) => string;
  tell: (heard: ReplyHeard) => string;
  advise: (result: MicrophoneResult, before: MicrophoneResult | null) => string[];
}

export interface MicrophoneCheckInput {
  ear: Ear;
  voice: Voice;
  tones: Pick<Tones, 'play'>;
  clock: Clock;
  replies: ReplyToSay[];
  lines: CheckLines;
  understanding: Understanding;
  measure: MicrophoneMeasure;
  /** What is known apart from the sound, as it stands once the last reply was heard. */
  known: () => Pick<
    MicrophoneMeasured,
    'hearsOverSound' | 'hasCallWord' | 'isFitted' | 'recogniser' | 'isBetterComing'
  >;
  /** Told each time the page comes into sight or goes out of it. */
  onSight: (tell: (isSeen: boolean) => void) => Cancel;
}

interface MicrophoneCheckContext extends MicrophoneCheckInput {
  /** Still to be said, the current one first. */
  left: ReplyToSay[];
  /** The current one was not heard, and is asked for once more. */
  isAgain: boolean;
  heard: ReplyHeard[];
  /** Replies in a row at which not a word was said. */
  silentInRow: number;
  /** No voice was found, so lines are shown alone. */
  isMute: boolean;
  /** It had to wait until the page was seen again. */
  wasHidden: boolean;
  result: MicrophoneResult | null;
  before: MicrophoneResult | null;
}

/** Three steps back from the phone. */
export const WALKING_MILLISECONDS = 5000;
/** The room is listened to for so long. */
export const ROOM_MILLISECONDS = 2500;
/** After so many replies without a word nobody is heard. */
export const SILENT_REPLIES = 2;

const sensesOf = ({ ear, clock, understanding, measure }: MicrophoneCheckContext) => ({
  ...{ ear, clock, understanding, measure },
});
const askOf = ({ lines, left: [reply], isAgain }: MicrophoneCheckContext) =>
  reply === undefined ? '' : lines.ask(reply, isAgain);
const toldOf = ({ lines, heard }: MicrophoneCheckContext) => {
  const last = heard.at(-1);
  return last === undefined ? '' : lines.tell(last);
};

function resultOf(context: MicrophoneCheckContext): MicrophoneResult {
  const { replies, heard, left, measure, known, before } = context;
  const all = [
    ...heard,
    ...left.map(({ text }) => ({ text, how: 'unheard', heard: null }) as const),
  ];
  const count = (how: ReplyHeard['how']) => all.filter((each) => each.how === how).length;
  const measured: MicrophoneMeasured = {
    asked: replies.length,
    right: count('right'),
    almost: count('almost'),
    other: count('other'),
    unheard: count('unheard'),
    ...measure.measured(),
    ...known(),
  };
  return {
    measured,
    standing: standingOf(measured),
    advice: adviceOf(measured, before?.standing ?? null),
    replies: all,
  };
}

const anew = (replies: ReplyToSay[]) => ({
  left: replies,
  isAgain: false,
  heard: [],
  silentInRow: 0,
  isMute: false,
  wasHidden: false,
});

const machine = setup({
  types: {} as {
    context: MicrophoneCheckContext;
    events: MicrophoneCheckEvent;
    input: MicrophoneCheckInput;
  },
  actors: { saying, waiting, listening, watching },
  actions: {
    begin: assign(({ context: { replies, measure, result, before } }) => {
      measure.begin();
      return { ...anew(replies), before: result ?? before, result: null };
    }),
    note: assign(({ context: { left, heard, silentInRow }, event }) => {
      const [reply, ...rest] = left;
      if (reply === undefined) return {};
      const { text } = reply;
      const over = { left: rest, isAgain: false, wasHidden: false };
      if (event.type === 'HEARD')
        return {
          ...over,
          heard: [...heard, { text, how: event.how, heard: event.text }],
          silentInRow: 0,
        };
      if (event.type !== 'UNHEARD') return {};
      return {
        ...over,
        heard: [...heard, { text, how: 'unheard', heard: null } as const],
        silentInRow: event.silent ? silentInRow + 1 : 0,
      };
    }),
    askAgain: assign({ isAgain: true, wasHidden: false }),
    noteMute: assign({ isMute: true }),
    noteHidden: assign({ wasHidden: true }),
    conclude: assign(({ context }) => ({ result: resultOf(context) })),
    toneListening: ({ context }) => context.tones.play('listening'),
    toneAccepted: ({ context }) => context.tones.play('accepted'),
    toneAgain: ({ context }) => context.tones.play('not-understood'),
  },
  guards: {
    isAgain: ({ context }) => context.isAgain,
    isReplyLeft: ({ context }) => context.left.length > 0 && context.silentInRow < SILENT_REPLIES,
    knowsRoom: ({ context }) => context.measure.knowsRoom,
    isStop: ({ event }) => event.type === 'STEER' && event.to === 'stop',
    isGoOn: ({ event }) => event.type === 'STEER' && event.to === 'go-on',
    isAgainWanted: ({ event }) => event.type === 'STEER' && event.to === 'again',
  },
});

/**
 * Three replies are said from where the coach will stand, hands free: each as it is asked for, once
 * more where nothing was heard. What came of it is said, and kept to compare with the next time.
 */
export const microphoneCheckMachine = machine.createMachine({
  id: 'microphoneCheck',
  context: ({ input }) => ({ ...input, ...anew(input.replies), result: null, before: null }),
  invoke: {
    src: 'watching',
    input: ({ context: { ear, onSight } }) => ({ ear, onSight }),
  },
  initial: 'checking',
  on: { STEER: { guard: 'isStop', target: '.stopped' }, MUTE: { actions: 'noteMute' } },
  states: {
    checking: {
      initial: 'introducing',
      on: { DEAF: 'deaf', HIDDEN: { target: 'hidden', actions: 'noteHidden' } },
      states: {
        introducing: {
          invoke: {
            src: 'saying',
            input: ({ context }) => ({
              ...sensesOf(context),
              ...{ voice: context.voice, lines: [context.lines.stand] },
            }),
          },
          on: { SAID: 'walking', STEER: { guard: 'isGoOn', target: 'room' } },
        },
        walking: {
          invoke: {
            src: 'waiting',
            input: ({ context }) => ({
              ...sensesOf(context),
              ...{ milliseconds: WALKING_MILLISECONDS, part: null, said: context.lines.stand },
            }),
          },
          on: { TIME: 'room', STEER: { guard: 'isGoOn', target: 'room' } },
        },
        room: {
          invoke: {
            src: 'waiting',
            input: ({ context }) => ({
              ...sensesOf(context),
              ...{ milliseconds: ROOM_MILLISECONDS, part: 'room', said: context.lines.stand },
            }),
          },
          on: { TIME: 'choosing' },
        },
        choosing: {
          always: [
            { guard: 'isReplyLeft', target: 'asking' },
            { target: 'advising', actions: 'conclude' },
          ],
        },
        asking: {
          invoke: {
            src: 'saying',
            input: ({ context }) => ({
              ...sensesOf(context),
              ...{ voice: context.voice, lines: [askOf(context)] },
            }),
          },
          on: {
            SAID: { target: 'listening', actions: 'toneListening' },
            STEER: { guard: 'isGoOn', target: 'listening', actions: 'toneListening' },
          },
        },
        listening: {
          invoke: {
            src: 'listening',
            input: ({ context }) => ({
              ...sensesOf(context),
              reply: context.left[0] ?? { prompt: 'idle', text: '' },
              said: askOf(context),
            }),
          },
          on: {
            HEARD: { target: 'telling', actions: ['toneAccepted', 'note'] },
            UNHEARD: [
              { guard: 'isAgain', target: 'telling', actions: ['toneAgain', 'note'] },
              { target: 'asking', actions: ['toneAgain', 'askAgain'] },
            ],
          },
        },
        telling: {
          invoke: {
            src: 'saying',
            input: ({ context }) => ({
              ...sensesOf(context),
              ...{ voice: context.voice, lines: [toldOf(context)] },
            }),
          },
          on: { SAID: 'choosing', STEER: { guard: 'isGoOn', target: 'choosing' } },
        },
        advising: {
          invoke: {
            src: 'saying',
            input: ({ context }) => ({
              ...sensesOf(context),
              voice: context.voice,
              lines:
                context.result === null ? [] : context.lines.advise(context.result, context.before),
            }),
          },
          on: {
            SAID: '#microphoneCheck.finished',
            // It is all on the screen.
            DEAF: '#microphoneCheck.finished',
            HIDDEN: '#microphoneCheck.finished',
            STEER: [
              { guard: 'isGoOn', target: '#microphoneCheck.finished' },
              { guard: 'isAgainWanted', target: 'introducing', actions: 'begin' },
            ],
          },
        },
      },
    },
    /** The microphone or the ear is gone. */
    deaf: {
      on: { HEARS_AGAIN: 'resuming', STEER: { guard: 'isGoOn', target: 'resuming' } },
    },
    /** Out of sight a page is slow, and perhaps silent. */
    hidden: { on: { SHOWN: 'resuming', DEAF: 'deaf' } },
    resuming: {
      always: [{ guard: 'knowsRoom', target: 'checking.choosing' }, { target: 'checking' }],
    },
    /** It may be said once more, from nearer. */
    finished: {
      invoke: {
        src: 'waiting',
        input: ({ context }) => ({
          ...sensesOf(context),
          ...{ milliseconds: null, part: null, said: '' },
        }),
      },
      on: {
        STEER: [
          { guard: 'isAgainWanted', target: 'checking', actions: 'begin' },
          { guard: 'isStop', target: 'stopped' },
        ],
      },
    },
    stopped: { type: 'final' },
  },
});
