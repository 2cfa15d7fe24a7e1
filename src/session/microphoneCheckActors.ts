import { fromCallback } from 'xstate';
import type { Cancel, Clock, Ear, EarTrouble, Hearing, Voice } from '../ports';
import type { HowHeard, ReplyToSay, Steer } from './microphoneCheck';
import type { MicrophoneMeasure } from './microphoneCheckMeasuring';
import { READ_WITHIN_MILLISECONDS } from './voiceCheckMachine';

export type Words = Extract<Hearing, { type: 'words' }>;
type Given = Extract<Hearing, { type: 'reply' }>['reply'];

/** What words and keys mean to the check. */
export interface Understanding {
  howHeard(reply: ReplyToSay, words: Words): Exclude<HowHeard, 'unheard'>;
  steer(words: Words): Steer | null;
  steerByHand(reply: Given): Steer | null;
  /** It is a stop although Sayso was saying that line. */
  isStopOver(words: Words, line: string): boolean;
}

export type MicrophoneCheckEvent =
  | { type: 'SAID' }
  /** A line could not be said: it is only shown. */
  | { type: 'MUTE' }
  | { type: 'TIME' }
  | { type: 'HEARD'; how: Exclude<HowHeard, 'unheard'>; text: string }
  /** Nothing that could be a reply; `silent`: not a word. */
  | { type: 'UNHEARD'; silent: boolean }
  | { type: 'STEER'; to: Steer }
  | { type: 'DEAF'; why: EarTrouble }
  | { type: 'HEARS_AGAIN' }
  /** The page is out of sight, or back. */
  | { type: 'HIDDEN' }
  | { type: 'SHOWN' };

interface Senses {
  ear: Ear;
  clock: Clock;
  understanding: Understanding;
  measure: MicrophoneMeasure;
}

/** A voice that never tells its end is not waited for longer; every line is far shorter. */
const LINE_MILLISECONDS = 15_000;
/** After its own voice the room still sounds, and the tone; nobody answers sooner. */
const DYING_MILLISECONDS = 300;
/** Who began to speak is waited for. */
const SPEECH_HOLD_MILLISECONDS = 5000;
/** It may have been others who talked: the reply may still come. */
const AFTER_TALK_MILLISECONDS = 4000;
/** In a room of talk without end a reply is waited for no longer. */
const LONGEST_MILLISECONDS = 2 * READ_WITHIN_MILLISECONDS;

const beganAt = ({ beganSecondsAgo = 0 }: Words, clock: Clock) =>
  clock.now() - beganSecondsAgo * 1000;

/** Says these lines one after the other; a stop is heard over them. */
export const saying = fromCallback<{ type: 'NONE' }, Senses & { voice: Voice; lines: string[] }>(
  ({ input: { ear, clock, understanding, measure, voice, lines }, sendBack }) => {
    const left = lines.filter((line) => line !== '');
    let line = '';
    let cancel: Cancel | undefined;
    let watchdog: unknown;
    const next = () => {
      clock.clearTimeout(watchdog);
      cancel?.();
      measure.follow(null);
      const text = left.shift();
      if (text === undefined) return sendBack({ type: 'SAID' });
      line = text;
      let over = false;
      const ended = (how: 'spoken' | 'failed') => {
        if (over) return;
        over = true;
        if (how === 'failed') sendBack({ type: 'MUTE' });
        next();
      };
      watchdog = clock.setTimeout(() => ended('failed'), LINE_MILLISECONDS);
      const started = () => {
        if (!over) measure.follow('own-voice');
      };
      const silence = voice.say(text, { started, ended });
      cancel = () => {
        over = true;
        silence();
      };
      // It may have ended before it said how to be silenced.
      if (over) cancel = undefined;
    };
    const leave = ear.listen((hearing) => {
      if (hearing.type === 'reply') return steerByHand(hearing.reply);
      if (hearing.type === 'words' && understanding.isStopOver(hearing, line))
        sendBack({ type: 'STEER', to: 'stop' });
    });
    const steerByHand = (reply: Given) => {
      const to = understanding.steerByHand(reply);
      if (to !== null) sendBack({ type: 'STEER', to });
    };
    ear.attend('idle');
    next();
    return () => {
      clock.clearTimeout(watchdog);
      leave();
      cancel?.();
      measure.follow(null);
    };
  },
);

/** Waits so long, or for ever (null), and hears what steers the check. */
export const waiting = fromCallback<
  { type: 'NONE' },
  Senses & { milliseconds: number | null; part: 'room' | null; said: string }
>(({ input: { ear, clock, understanding, measure, milliseconds, part, said }, sendBack }) => {
  const openedAt = clock.now();
  const timer =
    milliseconds === null ? null : clock.setTimeout(() => sendBack({ type: 'TIME' }), milliseconds);
  ear.attend('idle');
  measure.follow(part);
  const leave = ear.listen((hearing) => {
    const to =
      hearing.type === 'reply'
        ? understanding.steerByHand(hearing.reply)
        : hearing.type !== 'words'
          ? null
          : beganAt(hearing, clock) >= openedAt
            ? understanding.steer(hearing)
            : understanding.isStopOver(hearing, said)
              ? 'stop'
              : null;
    if (to !== null) sendBack({ type: 'STEER', to });
  });
  return () => {
    if (timer !== null) clock.clearTimeout(timer);
    leave();
    measure.follow(null);
  };
});

/** Listens to one reply, once. */
export const listening = fromCallback<
  { type: 'NONE' },
  Senses & { reply: ReplyToSay; said: string }
>(({ input: { ear, clock, understanding, measure, reply, said }, sendBack }) => {
  const openedAt = clock.now();
  let timer: unknown;
  let hasSpoken = false;
  const wait = (milliseconds: number) => {
    clock.clearTimeout(timer);
    const longest = openedAt + LONGEST_MILLISECONDS - clock.now();
    timer = clock.setTimeout(() => unheard(), Math.max(0, Math.min(milliseconds, longest)));
  };
  const unheard = () => {
    measure.replied(null);
    sendBack({ type: 'UNHEARD', silent: !hasSpoken });
  };
  const hear = (words: Words) => {
    // What began before it was asked for may be Sayso's own voice.
    if (beganAt(words, clock) < openedAt) {
      if (understanding.isStopOver(words, said)) sendBack({ type: 'STEER', to: 'stop' });
      return;
    }
    const how = words.prompt === reply.prompt ? understanding.howHeard(reply, words) : 'other';
    if (how === 'other' && understanding.steer(words) === 'stop')
      return sendBack({ type: 'STEER', to: 'stop' });
    measure.replied(words.beganSecondsAgo ?? Infinity);
    sendBack({ type: 'HEARD', how, text: words.text });
  };
  // The rest of its own voice is neither a reply nor measured as one.
  const dying = clock.setTimeout(() => measure.follow('reply'), DYING_MILLISECONDS);
  ear.attend(reply.prompt);
  const leave = ear.listen((hearing) => {
    switch (hearing.type) {
      case 'onset':
        if (clock.now() - openedAt < DYING_MILLISECONDS) return;
        hasSpoken = true;
        return wait(SPEECH_HOLD_MILLISECONDS);
      case 'nothing':
        return hasSpoken ? wait(AFTER_TALK_MILLISECONDS) : undefined;
      case 'words':
        return hear(hearing);
      case 'reply': {
        const to = understanding.steerByHand(hearing.reply);
        if (to !== null) sendBack({ type: 'STEER', to });
        return;
      }
      default:
    }
  });
  wait(READ_WITHIN_MILLISECONDS);
  return () => {
    clock.clearTimeout(timer);
    clock.clearTimeout(dying);
    leave();
    measure.follow(null);
  };
});

/** Tells, as long as the check lives, of the microphone that goes and the page that is not seen. */
export const watching = fromCallback<
  { type: 'NONE' },
  { ear: Ear; onSight: (tell: (isSeen: boolean) => void) => Cancel }
>(({ input: { ear, onSight }, sendBack }) => {
  const leave = ear.listen((hearing) => {
    if (hearing.type === 'deaf') sendBack({ type: 'DEAF', why: hearing.why });
    if (hearing.type === 'hears-again') sendBack({ type: 'HEARS_AGAIN' });
  });
  const look = onSight((isSeen) => sendBack({ type: isSeen ? 'SHOWN' : 'HIDDEN' }));
  return () => {
    leave();
    look();
  };
});
