/** Where a rehearsal takes place: a virtual clock, a voice by the table, and who reads the replies. */
import type { Way } from '../domain/areas';
import type { PromptId } from '../domain/script';
import type { Beats, Cancel, Ear, Hearing, Ports, SessionEvent, Voice } from '../ports';
import type { Said } from '../mixing/spoken';
import { sharedManner, type SharedManner } from '../voice/manner';
import type { Replies, Spoken } from './replies';
import { createVirtualClock, type VirtualClock } from './virtualClock';

/** A fixed beginning, so that the same input gives the same record byte for byte. */
export const STARTED_AT_MILLISECONDS = Date.UTC(2026, 0, 5, 9, 0, 0);
/** People begin to answer about this long after the tone. */
const ANSWERS_AFTER_SECONDS = 1.5;
const SECONDS_A_WORD = 0.35;
/** Two days: nothing that ends takes so long. */
const LIMIT_MILLISECONDS = 48 * 3600 * 1000;

export type TimedEvent = SessionEvent & { atSeconds: number };

/** What any rehearsal needs. */
export interface Hall {
  way: Way;
  secondsOf: (text: string) => number;
  replies: Replies;
  /** When it begins, milliseconds since 1970. Default a fixed moment. */
  startsAtMilliseconds?: number | undefined;
  /** What the recogniser makes of a sound file at a prompt, and how long the sound lasts. */
  hearAudio?: (
    path: string,
    prompt: PromptId,
  ) => { heard: { text: string; confidence: number } | null; seconds: number };
}

/** The ports of a rehearsal, what was shown and said through them, and how its time passes. */
export function rehearsalHall(hall: Hall) {
  const { startsAtMilliseconds = STARTED_AT_MILLISECONDS, way, secondsOf } = hall;
  const clock = createVirtualClock(startsAtMilliseconds);
  const said: Said[] = [];
  const timeline: TimedEvent[] = [];
  const secondsNow = () => (clock.now() - startsAtMilliseconds) / 1000;
  const partner = createPartner(hall, clock, secondsNow);
  const manner = sharedManner();
  manner.speakFor(way);
  const table = { clock, secondsOf, secondsNow, manner, said };
  const ports: Omit<Ports, 'records'> = {
    clock,
    ear: partner.ear,
    voice: tableVoice(table),
    tones: { play: () => undefined, hush: () => undefined },
    beats: tableBeats(table),
    screen: {
      show(event) {
        timeline.push(event);
        if (event.type === 'listen') partner.asked();
      },
    },
  };
  return {
    ...{ clock, ports, partner, said, timeline },
    /** Until it is over; where it waits for replies that nobody gives, `nobody` is told. */
    runUntil(isOver: () => boolean, nobody: () => void) {
      clock.runUntil(isOver, LIMIT_MILLISECONDS);
      if (!isOver()) nobody();
      clock.runUntil(isOver, LIMIT_MILLISECONDS);
    },
  };
}

interface Table {
  clock: VirtualClock;
  secondsOf: (text: string) => number;
  secondsNow: () => number;
  manner: SharedManner;
  said: Said[];
}

/** A voice that takes exactly as long as the committed table says, at the pace of its manner. */
function tableVoice({ clock, secondsOf, secondsNow, manner, said }: Table): Voice {
  return {
    say(text, { started, ended }) {
      const seconds = secondsOf(text) * manner.now().stretch;
      const piece: Said = {
        text,
        fromSeconds: secondsNow(),
        toSeconds: secondsNow() + seconds,
        isCutOff: false,
        manner: manner.now(),
      };
      said.push(piece);
      started?.();
      const timer = clock.setTimeout(() => ended('spoken'), seconds * 1000);
      return () => {
        clock.clearTimeout(timer);
        // A timer may come a rounding error early.
        if (secondsNow() > piece.toSeconds - 0.001) return;
        piece.toSeconds = secondsNow();
        piece.isCutOff = true;
      };
    },
    prepare: () => undefined,
    adjust: manner.adjust,
    stretch: () => manner.now().stretch,
    duck: () => undefined,
  };
}

/** Counts on their moment, at their own pace; those that are cut off before it never sound. */
function tableBeats({ clock, secondsOf, secondsNow, manner, said }: Table): Beats {
  return {
    place(text, atMilliseconds) {
      // The timeline's own tones are rendered from it.
      if (text === null) return () => undefined;
      const fromSeconds = secondsNow() + (atMilliseconds - clock.now()) / 1000;
      const piece = {
        text,
        fromSeconds,
        toSeconds: fromSeconds + secondsOf(text),
        isCutOff: false,
        manner: { ...manner.now(), stretch: 1 },
        isCount: true as const,
      };
      said.push(piece);
      return () => {
        if (secondsNow() > piece.toSeconds - 0.001) return;
        piece.toSeconds = Math.max(fromSeconds, secondsNow());
        piece.isCutOff = true;
      };
    },
    prepare: () => undefined,
  };
}

/** The one who reads the replies file aloud. */
function createPartner(
  { replies, hearAudio }: Hall,
  clock: VirtualClock,
  secondsNow: () => number,
) {
  const inTurn = [...replies.inTurn];
  const timed = [...replies.timed];
  const listeners = new Set<(hearing: Hearing) => void>();
  let prompt: PromptId = 'idle';
  let usedUp: () => void = () => undefined;
  let saying = 0;

  const tell = (hearing: Hearing) => {
    for (const listener of [...listeners]) listener(hearing);
  };
  const speak = (spoken: Spoken) => {
    const during = prompt;
    const sound = spoken.audio === null ? null : hearAudio?.(spoken.audio, during);
    const words = spoken.text.split(/\s+/).filter(Boolean).length;
    const seconds = sound?.seconds ?? words * SECONDS_A_WORD;
    tell({ type: 'onset' });
    clock.setTimeout(() => {
      saying -= 1;
      const heard = sound === undefined || sound === null ? sure(spoken.text) : sound.heard;
      if (heard === null) tell({ type: 'nothing' });
      else tell({ type: 'words', prompt: during, ...heard });
    }, seconds * 1000);
  };
  const sayAt = (spoken: Spoken, inSeconds: number) => {
    saying += 1;
    clock.setTimeout(() => speak(spoken), inSeconds * 1000);
  };
  for (const spoken of timed) sayAt(spoken, spoken.atSeconds - secondsNow());

  const ear: Ear = {
    attend: (next) => {
      prompt = next;
    },
    listen(listener): Cancel {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
  return {
    ear,
    onUsedUp: (run: () => void) => {
      usedUp = run;
    },
    /** A question opened, or was asked again: one line of the file answers it, or stays silent. */
    asked() {
      const spoken = inTurn.shift();
      if (spoken === undefined) {
        if (saying === 0) clock.setTimeout(usedUp, 0);
      } else if (spoken.text !== '' || spoken.audio !== null) sayAt(spoken, ANSWERS_AFTER_SECONDS);
    },
  };
}

const sure = (text: string) => ({ text, confidence: 1 });
