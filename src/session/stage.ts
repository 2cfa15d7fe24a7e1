import type { CueBook, PromptId } from '../domain/script';
import type { Side } from '../domain/areas';
import {
  TONE_SECONDS,
  type Cancel,
  type Clock,
  type Level,
  type Ports,
  type SessionEvent,
  type ToneName,
} from '../ports';
import type { Weighed } from './weighing';

/** What the children tell the session while they run. */
export type StageReport =
  /** Line `index` of the work begins: where to go on after a pause. */
  | { type: 'AT_LINE'; index: number }
  /** The work is over, and its question is about to be asked. */
  | { type: 'WORK_DONE'; prompt: PromptId }
  /** The question opened at that time, or is asked again (the time of its first opening). */
  | { type: 'OPENED'; prompt: PromptId; side: Side | null; openedAtMilliseconds: number }
  /** A reply is offered for a yes or a no. */
  | { type: 'OFFERED'; prompt: PromptId; side: Side | null; reading: Weighed }
  /** It is about to be said that the level is lost. */
  | { type: 'LEVEL_LOST' };

/** Everything the machines may touch of the outside, each use also told to the screen. */
export interface Stage {
  book: CueBook;
  clock: Clock;
  /** Only where a phone was set as a level. */
  level?: Level | undefined;
  /** How long a text takes to say, in seconds, from the committed table. */
  secondsOf(text: string): number;
  say(text: string, ended: () => void): Cancel;
  prepare(texts: string[], counts: string[]): void;
  tone(name: ToneName): void;
  /**
   * One count, spoken or (null) a tone, that was due at that time: sounds exactly
   * HEAD_START_SECONDS later. `ended` comes when its words would be over; a tone's at once.
   */
  beat(text: string | null, dueMilliseconds: number, ended: () => void): Cancel;
  /** Somebody began to speak: a line that is being said gives way, once, and not for long. */
  giveWay(): void;
  /** The line that Sayso was saying at that time, or null: what is heard then may be its echo. */
  saidAt(milliseconds: number): string | null;
  /** What was spoken is known: the voice is as before. */
  goOn(): void;
  /** Silences every tone, and every count that was placed. */
  hush(): void;
  attend(prompt: PromptId): void;
  show(event: SessionEvent): void;
  report(report: StageReport): void;
}

/**
 * Every beat sounds this much after its time, so that the sound can be placed before: timers come
 * late by some ten milliseconds on a busy page, a placed sound does not, and a word begins up to
 * 0.15 s before the moment at which it is felt to fall.
 */
export const HEAD_START_SECONDS = 0.2;

/** A line still sounds so long after its end: in the loudspeaker, the room and the microphone. */
const ECHO_MILLISECONDS = 150;
/** What is heard was said a few seconds ago at most. */
const REMEMBERED_LINES = 8;

/**
 * Somebody who has said nothing to understand by then is talking to others. A line gives way once:
 * in a room full of talk it would never be heard otherwise.
 */
const GIVES_WAY_SECONDS = 2;

/** Joins the ports to one stage. `startedAtMilliseconds` gives every shown event its time. */
export function createStage(
  book: CueBook,
  ports: Omit<Ports, 'records'>,
  secondsOf: (text: string) => number,
  startedAtMilliseconds: number,
  report: (report: StageReport) => void,
): Stage {
  const show = (event: SessionEvent) =>
    ports.screen.show({
      ...event,
      atSeconds: (ports.clock.now() - startedAtMilliseconds) / 1000,
    });
  let quietFromMilliseconds = 0;
  /** Of the line that is being said: whether it has given way already. */
  let line: { gaveWay: boolean } | null = null;
  /** The last lines, the latest last. */
  const lines: { text: string; from: number; until: number }[] = [];
  /** Counts that were placed and may still sound; a last one rings on after its line. */
  let ringing: { untilMilliseconds: number; silence: Cancel }[] = [];
  let givingWay: unknown = null;
  const goOn = () => {
    if (givingWay === null) return;
    ports.clock.clearTimeout(givingWay);
    givingWay = null;
    ports.voice.duck(false);
  };
  /** Runs at once, or when the tone that sounds is over: nothing is said over a tone. */
  const afterTone = (run: () => Cancel): Cancel => {
    const { clock } = ports;
    const waitMilliseconds = quietFromMilliseconds - clock.now();
    if (waitMilliseconds <= 0) return run();
    let cancel: Cancel | undefined;
    const timer = clock.setTimeout(() => {
      cancel = run();
    }, waitMilliseconds);
    return () => {
      clock.clearTimeout(timer);
      cancel?.();
    };
  };
  const say = (text: string, ended: () => void): Cancel => {
    const { clock, voice } = ports;
    const seconds = Math.round(secondsOf(text) * (voice.stretch?.() ?? 1) * 1000) / 1000;
    const readAtMilliseconds = clock.now() + seconds * 1000;
    show({ type: 'cue', text, seconds });
    let timer: unknown;
    const said = { gaveWay: false };
    line = said;
    const askedAtMilliseconds = clock.now();
    const sounding = { text, from: askedAtMilliseconds, until: Infinity };
    lines.push(sounding);
    lines.splice(0, lines.length - REMEMBERED_LINES);
    const over = () => {
      sounding.until = Math.min(sounding.until, clock.now() + ECHO_MILLISECONDS);
      if (line !== said) return;
      line = null;
      goOn();
    };
    const cancel = voice.say(text, {
      started: () => {
        // Until here it was only asked for: words that began before it are no echo of it.
        sounding.from = clock.now();
      },
      ended: (how) => {
        // A voice that told of no start until its end sounded before.
        if (clock.now() - sounding.from < seconds * 500) sounding.from = askedAtMilliseconds;
        over();
        if (how === 'spoken') return ended();
        // Nothing sounds, so the caption gets the time that the words would have taken.
        show({ type: 'trouble', what: 'no-voice', say: null });
        timer = clock.setTimeout(ended, Math.max(0, readAtMilliseconds - clock.now()));
      },
    });
    return () => {
      over();
      cancel();
      clock.clearTimeout(timer);
    };
  };
  return {
    book,
    clock: ports.clock,
    level: ports.level,
    secondsOf,
    say: (text, ended) => afterTone(() => say(text, ended)),
    prepare(texts, counts) {
      ports.voice.prepare(texts);
      ports.beats.prepare(counts);
    },
    tone(name) {
      show({ type: 'tone', name });
      ports.tones.play(name);
      quietFromMilliseconds = ports.clock.now() + TONE_SECONDS[name] * 1000;
    },
    beat(text, dueMilliseconds, ended) {
      const { clock, beats } = ports;
      const soundsAtMilliseconds = dueMilliseconds + HEAD_START_SECONDS * 1000;
      const seconds = text === null ? TONE_SECONDS.countdown : secondsOf(text);
      const cancel = beats.place(text, soundsAtMilliseconds);
      ringing = ringing.filter(({ untilMilliseconds }) => untilMilliseconds > clock.now());
      const untilMilliseconds = soundsAtMilliseconds + seconds * 1000;
      ringing.push({ untilMilliseconds, silence: cancel });
      if (text === null) {
        show({ type: 'tone', name: 'countdown' });
        ended();
        return cancel;
      }
      show({ type: 'cue', text, seconds });
      quietFromMilliseconds = untilMilliseconds;
      // In the time of the plan: the count after it sounds as much later as this one.
      const timer = clock.setTimeout(ended, dueMilliseconds + seconds * 1000 - clock.now());
      return () => {
        clock.clearTimeout(timer);
        cancel();
      };
    },
    giveWay() {
      if (line === null || line.gaveWay) return;
      line.gaveWay = true;
      ports.voice.duck(true);
      givingWay = ports.clock.setTimeout(goOn, GIVES_WAY_SECONDS * 1000);
    },
    saidAt: (milliseconds) =>
      lines.find(({ from, until }) => from <= milliseconds && milliseconds < until)?.text ?? null,
    goOn,
    hush() {
      ports.tones.hush();
      for (const { silence } of ringing) silence();
      ringing = [];
      quietFromMilliseconds = 0;
    },
    attend: (prompt) => ports.ear.attend(prompt),
    show,
    report,
  };
}
