import { assign, fromCallback, setup } from 'xstate';
import type { PromptId } from '../domain/script';
import type { Clock, Ear, EarTrouble, Tones, Voice } from '../ports';
import {
  unheard,
  isHeardWell,
  MOST_TRIES,
  synonymsToTry,
  type HeardReading,
  type LineToRead,
  type LineRead,
} from './voiceCheck';

export interface VoiceCheckInput {
  ear: Ear;
  voice: Voice;
  tones: Pick<Tones, 'play'>;
  clock: Clock;
  lines: LineToRead[];
  /** Said first; what is said afterwards is told by tones and on the screen. */
  intro: string;
  /** Whether words heard at a prompt mean the same as those that were to be read. */
  means: (prompt: PromptId, heard: string, wanted: string) => boolean;
  /** The command that words are, where they are one that steers the check. */
  steers: (prompt: PromptId, heard: string) => 'skip' | 'stop' | null;
}

export type VoiceCheckEvent =
  | { type: 'SAID' }
  | { type: 'HEARD'; heard: HeardReading }
  /** The right words, which may go on. */
  | { type: 'SO_FAR' }
  /** Spoken, but no reply; or nothing was said for long. */
  | { type: 'UNHEARD'; silent: boolean }
  | { type: 'DEAF'; why: EarTrouble }
  | { type: 'HEARS_AGAIN' }
  | { type: 'SKIP' }
  | { type: 'GO_ON' }
  | { type: 'STOP' };

interface VoiceCheckContext extends VoiceCheckInput {
  /** Still to be read, the current one first. */
  left: LineToRead[];
  tries: HeardReading[];
  read: LineRead[];
  /** Lines in a row at which nothing was said at all. */
  silentInRow: number;
  triesSynonyms: boolean;
  /** The right words were heard for the current line, and may go on. */
  isHeard: boolean;
}

/** A line is read within this, or it is asked for again. */
export const READ_WITHIN_MILLISECONDS = 8000;
/** Who began to speak is waited for. */
const SPEECH_HOLD_MILLISECONDS = 5000;
/** After so many lines without a word nobody is heard. */
export const SILENT_LINES = 2;

const introducing = fromCallback<{ type: 'NONE' }, { voice: Voice; text: string }>(
  ({ input: { voice, text }, sendBack }) => {
    if (text === '') sendBack({ type: 'SAID' });
    else return voice.say(text, { ended: () => sendBack({ type: 'SAID' }) });
    return undefined;
  },
);

/** Listens to one reading of the line. */
const listening = fromCallback<
  { type: 'NONE' },
  Pick<VoiceCheckInput, 'ear' | 'clock' | 'means' | 'steers'> & { line: LineToRead }
>(({ input: { ear, clock, means, steers, line }, sendBack }) => {
  let timer: unknown;
  const wait = (milliseconds: number) => {
    clock.clearTimeout(timer);
    const silent = () => sendBack({ type: 'UNHEARD', silent: true });
    timer = clock.setTimeout(silent, milliseconds);
  };
  ear.attend(line.prompt);
  const leave = ear.listen((hearing) => {
    switch (hearing.type) {
      case 'onset':
        return wait(SPEECH_HOLD_MILLISECONDS);
      case 'nothing':
        return sendBack({ type: 'UNHEARD', silent: false });
      case 'deaf':
        return sendBack({ type: 'DEAF', why: hearing.why });
      case 'so-far':
        if (hearing.prompt === line.prompt && means(line.prompt, hearing.text, line.text))
          sendBack({ type: 'SO_FAR' });
        return;
      case 'words': {
        // What was said before the line was shown is no reading of it.
        if (hearing.prompt !== line.prompt) return;
        const { text, confidence, phones = [] } = hearing;
        const isRight = means(line.prompt, text, line.text);
        const steered = isRight ? null : steers(line.prompt, text);
        if (steered !== null && isHeardWell({ text, confidence, phones, isRight: true }))
          return sendBack({ type: steered === 'skip' ? 'SKIP' : 'STOP' });
        return sendBack({ type: 'HEARD', heard: { text, confidence, phones, isRight } });
      }
      case 'reply':
        if (hearing.reply.command === 'skip') sendBack({ type: 'SKIP' });
        if (hearing.reply.command === 'stop') sendBack({ type: 'STOP' });
        return;
      case 'hears-again':
    }
  });
  wait(READ_WITHIN_MILLISECONDS);
  return () => {
    clock.clearTimeout(timer);
    leave();
  };
});

const waitingForEar = fromCallback<{ type: 'NONE' }, { ear: Ear }>(({ input: { ear }, sendBack }) =>
  ear.listen((hearing) => {
    if (hearing.type === 'hears-again') sendBack({ type: 'HEARS_AGAIN' });
  }),
);

const machine = setup({
  types: {} as {
    context: VoiceCheckContext;
    events: VoiceCheckEvent;
    input: VoiceCheckInput;
  },
  actors: { introducing, listening, waitingForEar },
  actions: {
    note: assign(({ context, event }) =>
      event.type === 'HEARD'
        ? { tries: [...context.tries, event.heard], silentInRow: 0, isHeard: false }
        : event.type === 'UNHEARD'
          ? { tries: [...context.tries, unheard()], isHeard: false }
          : {},
    ),
    setHeard: assign((_, isHeard: boolean) => ({ isHeard })),
    toneHeard: ({ context }) => context.tones.play('heard'),
    toneAccepted: ({ context }) => context.tones.play('accepted'),
    toneAgain: ({ context }) => context.tones.play('not-understood'),
    toneListening: ({ context }) => context.tones.play('listening'),
    close: assign(({ context: { left, tries, read, silentInRow } }, how: 'read' | 'skipped') => {
      const [line, ...rest] = left;
      if (line === undefined) return {};
      const isSilent = how === 'read' && tries.every(({ text }) => text === null);
      return {
        left: rest,
        tries: [],
        isHeard: false,
        read: [...read, { ...line, tries, isSkipped: how === 'skipped' }],
        silentInRow: isSilent ? silentInRow + 1 : 0,
      };
    }),
    addSynonyms: assign(({ context: { read } }) => ({
      left: synonymsToTry(read),
      triesSynonyms: true,
    })),
    startCounting: assign({ silentInRow: 0 }),
  },
  guards: {
    isWell: ({ context }) => {
      const last = context.tries.at(-1);
      return last !== undefined && isHeardWell(last);
    },
    isTriedOut: ({ context }) => context.tries.length >= MOST_TRIES,
    isLineLeft: ({ context }) => context.left.length > 0,
    isNobodyHeard: ({ context }) => context.silentInRow >= SILENT_LINES,
    haveSynonyms: ({ context }) => !context.triesSynonyms && synonymsToTry(context.read).length > 0,
  },
});

/**
 * A coach reads replies aloud, hands free: each line once, again where it was not heard well, then
 * other words of the same meaning for those that stay unsure.
 */
export const voiceCheckMachine = machine.createMachine({
  id: 'voiceCheck',
  context: ({ input }) => ({
    ...input,
    ...{ left: input.lines, tries: [], read: [], silentInRow: 0, triesSynonyms: false },
    isHeard: false,
  }),
  initial: 'introducing',
  on: {
    STOP: '.finished',
    DEAF: { target: '.deaf', actions: { type: 'setHeard', params: false } },
  },
  states: {
    introducing: {
      invoke: {
        src: 'introducing',
        input: ({ context: { voice, intro } }) => ({ voice, text: intro }),
      },
      on: {
        SAID: { target: 'choosing', actions: 'toneListening' },
        SKIP: { target: 'choosing', actions: 'toneListening' },
      },
    },
    choosing: {
      always: [
        { guard: 'isNobodyHeard', target: 'nobodyHeard' },
        { guard: 'isLineLeft', target: 'reading' },
        { guard: 'haveSynonyms', target: 'reading', actions: 'addSynonyms' },
        { target: 'finished' },
      ],
    },
    reading: {
      invoke: {
        src: 'listening',
        input: ({ context: { ear, clock, means, steers, left } }) => ({
          ...{ ear, clock, means, steers },
          line: left[0] as LineToRead,
        }),
      },
      on: {
        HEARD: { target: 'weighing', actions: 'note' },
        UNHEARD: { target: 'weighing', actions: 'note' },
        SO_FAR: { actions: ['toneHeard', { type: 'setHeard', params: true }] },
        SKIP: { target: 'choosing', actions: { type: 'close', params: 'skipped' } },
      },
    },
    weighing: {
      always: [
        {
          guard: 'isWell',
          target: 'choosing',
          actions: ['toneAccepted', { type: 'close', params: 'read' }],
        },
        {
          guard: 'isTriedOut',
          target: 'choosing',
          actions: ['toneAgain', { type: 'close', params: 'read' }],
        },
        { target: 'reading', actions: 'toneAgain' },
      ],
    },
    /** The microphone or the ear is gone. */
    deaf: {
      invoke: { src: 'waitingForEar', input: ({ context: { ear } }) => ({ ear }) },
      on: {
        HEARS_AGAIN: { target: 'choosing', actions: 'toneListening' },
        GO_ON: { target: 'choosing', actions: 'toneListening' },
      },
    },
    /** The microphone is open, but nobody is heard: too far, too loud, or nobody there. */
    nobodyHeard: {
      on: { GO_ON: { target: 'choosing', actions: ['startCounting', 'toneListening'] } },
    },
    finished: { type: 'final' },
  },
});
