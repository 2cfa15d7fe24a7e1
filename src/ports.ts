/**
 * What the outside must offer. Adapters (ear, voice, tones, records) implement these; the
 * session machines know nothing else of the world. Callbacks, not promises, so that a virtual
 * clock replays a session exactly.
 */
import type { Area, AreaOutcome, Side } from './domain/areas';
import type { Finding, Load } from './domain/findings';
import type { Reply, Verdict } from './domain/hearing/reply';
import type { EndReason, Entry } from './domain/log';
import type { Left } from './domain/people/left';
import type { Person } from './domain/people/person';
import type { Pattern } from './domain/reporting/areaReport';
import type { Outcome } from './domain/reporting/report';
import type { PromptId } from './domain/script';
import type { Sample } from './domain/tilt/following';
import type { TiltVerdict } from './domain/tilt/grading';
import type { Line } from './domain/tilt/line';

/** Ends or cancels what was started; calling it again does nothing. */
export type Cancel = () => void;

/** Says when to look (`setTimeout`) and what time it truly is (`now`); the two are kept apart. */
export interface Clock {
  /** True time, milliseconds since 1970. */
  now(): number;
  setTimeout(run: () => void, milliseconds: number): unknown;
  clearTimeout(id: unknown): void;
}

/** What an ear reports. */
export type Hearing =
  /** Somebody began to speak: hold a question that is about to be asked again. */
  | { type: 'onset' }
  /** What was spoken turned out to be nothing that could be a reply. */
  | { type: 'nothing' }
  /**
   * Words, still to be understood, with the prompt that was open when they began. `other`: the
   * best words of another meaning, where they fit almost as well. `phones`: those that were heard,
   * bound by no reply, where the ear can tell. `beganSecondsAgo`: how long ago the first of the
   * words began, where it can tell.
   */
  | {
      type: 'words';
      text: string;
      confidence: number;
      prompt: PromptId;
      other?: string;
      phones?: string[];
      beganSecondsAgo?: number;
    }
  /**
   * Words that are believed and a reply by themselves, but more may follow: `words` tells the whole
   * once it is over. A sign can be given for them; nothing may be decided by them.
   */
  | { type: 'so-far'; text: string; confidence: number; prompt: PromptId }
  /** A reply given by touch, key, pedal or headset: needs no understanding. */
  | { type: 'reply'; reply: Reply; prompt: PromptId }
  /** The ear can no longer hear (permission taken back, microphone unplugged, worker gone). */
  | { type: 'deaf'; why: EarTrouble }
  | { type: 'hears-again' };

/** `interrupted`: something else has the microphone, a call perhaps; it comes back by itself. */
export type EarTrouble =
  'no-microphone' | 'denied' | 'unplugged' | 'interrupted' | 'worker-failed' | 'model-missing';

/** Hears replies. Always open at some prompt; `idle` while work goes on. */
export interface Ear {
  /** From now on the replies of this prompt are expected. Cheap; may be called at any time. */
  attend(prompt: PromptId): void;
  listen(onHearing: (hearing: Hearing) => void): Cancel;
}

export interface SayOptions {
  /** Called once, when the sound begins, where the voice can tell. */
  started?: () => void;
  /** Called once, unless cancelled: spoken to the end, or failed after every fallback. */
  ended: (how: 'spoken' | 'failed') => void;
}

/** Speaks one line at a time. A cancelled line is silent at once. */
export interface Voice {
  say(text: string, options: SayOptions): Cancel;
  /** These lines will probably be said next: make them now if you can. */
  prepare(texts: string[]): void;
  /** One step louder, quieter, slower or faster, kept for the lines that follow; stops at its limits. */
  adjust(change: VoiceChange): void;
  /**
   * Quieter at once while somebody speaks, by about 10 dB, the line that sounds too where the voice
   * can; back again with false.
   */
  duck(isDucked: boolean): void;
  /** How much longer its lines take at present than at the usual pace; 1 where left out. */
  stretch?(): number;
}

export type VoiceChange = 'louder' | 'quieter' | 'slower' | 'faster';

/**
 * Counts and beats that people breathe and move by, each on its moment: the sound's own clock
 * keeps them even, however busy the page is and where nobody looks at it.
 */
export interface Beats {
  /**
   * Sounds at `atMilliseconds` (true time, of the Clock; at once where that has passed): `text` is
   * spoken, null is the tone `countdown`. Words that are not ready by then become the tone, since
   * a late count is a wrong one.
   */
  place(text: string | null, atMilliseconds: number): Cancel;
  /** These will be counted soon: make them now. */
  prepare(texts: string[]): void;
}

/**
 * `listening`: a question is open; `heard`: an answer was heard, and may go on;
 * `accepted`: the result is stored for good;
 * `not-understood`: say it again; `countdown`: one of the last seconds; `begin`: work starts now;
 * `not-stored`: the record could not be written (it is kept and tried again); `halted`: stop was heard;
 * `upright`, `tilted`: what the phone as a level tells of the shin, as often as it changes.
 */
export const TONES = [
  'listening',
  'heard',
  'accepted',
  'not-understood',
  'countdown',
  'begin',
  'not-stored',
  'halted',
  'upright',
  'tilted',
] as const;
export type ToneName = (typeof TONES)[number];

/** How long each tone sounds; nothing is said meanwhile. */
export const TONE_SECONDS: Readonly<Record<ToneName, number>> = {
  listening: 0.14,
  heard: 0.05,
  accepted: 0.28,
  'not-understood': 0.4,
  countdown: 0.07,
  begin: 0.45,
  'not-stored': 0.52,
  halted: 0.6,
  upright: 0.1,
  tilted: 0.2,
};

export interface Tones {
  play(name: ToneName): void;
  /** Silences what is sounding. */
  hush(): void;
}

/**
 * Why there is no angle: the page is not secure, it was refused, the device has no such sensor, or
 * that one fell silent.
 */
export type TiltTrouble = 'insecure' | 'denied' | 'no-sensor' | 'dropped-out';

export type TiltTelling =
  /** Gravity as the phone feels it, with true time, of the Clock. */
  | { type: 'reading'; sample: Sample }
  /** It tells nothing more, until it tells a reading again. */
  | { type: 'lost'; why: TiltTrouble };

/** The device's motion sensor. It may fall silent without a word: who listens looks at the time. */
export interface TiltSensor {
  listen(onTelling: (telling: TiltTelling) => void): Cancel;
}

/** What the phone is strapped to, along its long edge. */
export type LevelOn = 'shin' | 'upper-arm';

/** A phone that is strapped on and was set upright in two steps (domain/tilt). */
export interface Level {
  sensor: TiltSensor;
  on: LevelOn;
  line: Line;
}

/**
 * Keeps the log. `done` is called once the entry is durable, or with why it is not. An id that is
 * there already stays as it is: with the same content it is stored, with other content refused.
 */
export interface Records {
  append(entry: Entry, done: (problem: RecordProblem | null) => void): void;
  /** The entries of a session in order; empty where it is unknown. */
  read(session: string): Promise<Entry[]>;
  /** Sessions, newest first. */
  sessions(): Promise<SessionHead[]>;
  /**
   * What each session left, newest first; read without the rest of the logs, however many there
   * are.
   */
  outcomes(): Promise<SessionOutcomes[]>;
  /** Adds entries in their order, all of them or none. */
  addAll(entries: Entry[]): Promise<void>;
  /** Removes the sessions of the invented club, by their name, and nothing else: the rest stays. */
  removeInvented(): Promise<void>;
}

export interface SessionHead {
  session: string;
  routine: string;
  startedAt: string;
  ended: EndReason | null;
  /** Whose session it is, by id; null where nobody was named. */
  person: string | null;
  /** It was done alone: what was found is the athlete's own report (rule 12.13). */
  isReported?: true;
}

/** A session by its head, with how its areas stood, where it hurt anew and whether it was warned. */
export interface SessionOutcomes extends Left {
  head: SessionHead;
}

/** Sessions of the invented club are named so, and those alone may be removed. */
export const INVENTED_SESSION = 'invented-';

/** Keeps who the athletes are, apart from the log. Each rejects with a problem as `Records` tells it. */
export interface People {
  /** In no order; without those that are damaged. */
  all(): Promise<Person[]>;
  /** Of everybody who is kept, also of those that cannot be read. */
  ids(): Promise<string[]>;
  /** Adds them, or replaces those of the same id: all of them or none. */
  save(people: Person[]): Promise<void>;
  /** Removes them with the notes about their visits. */
  remove(ids: string[]): Promise<void>;
}

/** Free words of the coach about a visit. They are personal, and so never in the log. */
export interface Note {
  /** Random. */
  id: string;
  session: string;
  /** Whose session it was, by id; null where nobody was named. */
  person: string | null;
  text: string;
  /** Wall time, ISO 8601 with offset. */
  writtenAt: string;
}

/** Keeps the notes, beside the people; they go with the person (`People.remove`). Each rejects with a problem as `Records` tells it. */
export interface Notes {
  /** The notes of a session, newest last. */
  of(session: string): Promise<Note[]>;
  /** The note of a person that was written last, of any session; null where there is none. */
  last(person: string): Promise<Note | null>;
  add(note: Note): Promise<void>;
  remove(id: string): Promise<void>;
}

/**
 * `reason`: what went wrong; `say`: what the user can do about it. `differs`: another entry is there
 * under the same id, so that trying again is of no use.
 */
export interface RecordProblem {
  reason: 'full' | 'refused' | 'damaged' | 'differs' | 'unknown';
  say: string;
}

/** Everything a session shows or prints, in order: the timeline. Times in seconds. */
export type SessionEvent =
  | { type: 'cue'; text: string; seconds: number }
  | { type: 'tone'; name: ToneName }
  | { type: 'beat'; count: number }
  | { type: 'phase'; phase: Phase; seconds: number | null }
  | { type: 'listen'; prompt: PromptId }
  /** `either`: two readings that are offered together, with the words that tell them apart. */
  | {
      type: 'heard';
      text: string;
      verdict: Verdict;
      readback: string | null;
      either?: { words: string; reply: Reply }[];
    }
  /** What was heard so far came to nothing: the tone `heard` is taken back. */
  | { type: 'heard-nothing' }
  | ({ type: 'finding'; prompt: PromptId; load: Load | null } & Finding)
  | {
      type: 'decision';
      area: Area | null;
      from: string | null;
      to: string | null;
      because: string;
      rule: string;
    }
  | {
      type: 'step';
      prompt: PromptId;
      set: number | null;
      of: number | null;
      side: Side | null;
      rung: number | null;
    }
  | {
      type: 'outcome';
      area: Area;
      outcome: AreaOutcome;
      rung: number | null;
      pattern: Pattern | null;
    }
  /**
   * What the level tells now, in whole degrees from upright; null while it moves or is lost. The
   * arm is only `read`: how it got there decides, and that no phone sees.
   */
  | {
      type: 'tilt';
      on: LevelOn;
      degrees: number | null;
      verdict: TiltVerdict | 'read' | 'moving' | 'lost';
    }
  | {
      type: 'trouble';
      what: EarTrouble | RecordProblem['reason'] | 'no-voice' | 'asleep';
      say: string | null;
    }
  | ({ type: 'end'; reason: EndReason } & Outcome);

/** What is going on inside a step; the gerunds are the states of the machines. */
export type Phase =
  | 'cueing'
  | 'settling'
  | 'exhaling'
  | 'holding'
  | 'repeating'
  | 'pausingAtKnee'
  | 'resting'
  | 'asking'
  | 'listening'
  | 'confirming'
  | 'waiting'
  | 'paused'
  | 'halted'
  | 'ended';

/** Where the timeline goes: a React store, or a printer. */
export interface Screen {
  show(event: SessionEvent & { atSeconds: number }): void;
}

/** All ports of one session. */
export interface Ports {
  ear: Ear;
  voice: Voice;
  tones: Tones;
  beats: Beats;
  clock: Clock;
  records: Records;
  screen: Screen;
  /** Only where a phone was set as a level. */
  level?: Level | undefined;
}
