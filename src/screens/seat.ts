import type { Way } from '../domain/areas';
import type { OwnWords, ReplyName } from '../domain/hearing/coachWords';
import type { CueBook, EquipmentId, RoutineId } from '../domain/script';
import type { Words } from '../domain/log';
import type { Reply } from '../domain/hearing/reply';
import type { SessionHead } from '../ports';
import type { LineResult } from '../session/voiceCheck';
import type { ElsewhereHands, ElsewhereState } from './people/elsewhere';
import type { VisitHands, VisitState } from './finished/state';
import type { HomeworkHands, HomeworkState } from './homework/state';
import type { KeysHands, KeysState } from './keys/state';
import type { LevelHands, LevelState } from './level/state';
import type { LockHands, LockState } from './lock/state';
import type { MicrophoneCheckHands, MicrophoneCheckState } from './microphone/state';
import type { PeopleHands, PeopleState } from './people/state';
import type { RecordHands, RecordState } from './record/state';
import type { SquadDayHands, SquadDayState } from './squadDay/state';
import type { Told, View } from './view';
import type { WarmUpHands, WarmUpState } from './warmUp/state';

/** How the microphone stands; all but `hears` and `asking` leave touch and keys. */
export type MicrophoneState =
  'unknown' | 'asking' | 'hears' | 'denied' | 'none' | 'unplugged' | 'interrupted' | 'failed';

/** Everything the screens show. A new object whenever something changed. */
export interface SeatState {
  where:
    | 'people'
    | 'import'
    | 'record'
    | 'athlete'
    | 'visit'
    | 'homework'
    | 'squadDay'
    | 'warmUp'
    | 'gate'
    | 'microphone'
    | 'keys'
    | 'voiceCheck'
    | 'run'
    | 'finished';
  book: CueBook;
  routines: { id: RoutineId; name: string }[];
  language: LanguageState;
  microphone: {
    state: MicrophoneState;
    /** Loudness now, 0 to 1. */
    level: number;
    hearsWell: 'unknown' | 'quiet' | 'good' | 'loud';
    /** A word spoken over Sayso's own sound is heard; not known before it is open. */
    hearsOverSound?: boolean;
  };
  /** The recogniser; `progress` is 0 to 1, or null where it cannot be told. */
  ear: {
    state: 'loading' | 'ready' | 'failed';
    progress: number | null;
    /** Which of the two recognisers hears: the small one first, the better one once it is there. */
    size?: 'small' | 'strong';
    /** Why the small one stays; null while the better one may still come. */
    why?: 'missing' | 'damaged' | 'slow' | null;
  };
  voice: 'unknown' | 'speaks' | 'none';
  voices: VoicesState;
  /** How much is said in the next session. */
  words: Words;
  /** The file that plays in the background; `trouble`: the last one could not be played. */
  music: { name: string | null; trouble: boolean };
  offline: OfflineState;
  /** Sessions that never ended, newest first. */
  unfinished: UnfinishedSession[];
  /** The session that runs in another tab of this device, or null. */
  elsewhere: ElsewhereState | null;
  /** Replies come from a recording, not from a person in the room. */
  rehearsal: boolean;
  /** What runs, or ran last, is homework: an athlete alone, who is asked for a yes or a no. */
  isHomework: boolean;
  coach: CoachState;
  /** The voice check that runs or has run; null where none was begun. */
  voiceCheck: VoiceCheckState | null;
  /** Null where none was begun. */
  microphoneCheck: MicrophoneCheckState | null;
  keys: KeysState;
  level: LevelState;
  people: PeopleState;
  record: RecordState;
  lock: LockState;
  homework: HomeworkState;
  /** Null on any other day. */
  squadDay: SquadDayState | null;
  /** Null where no group is led. */
  warmUp: WarmUpState | null;
  /** The session that is read afterwards; null where none is. */
  visit: VisitState | null;
  view: View;
}

/** A session that was cut off, or left at a question. */
export interface UnfinishedSession {
  head: SessionHead;
  /** The check, set or question it goes on at; null until that is read, and where it cannot be. */
  open: Told<'step'> | null;
  /** Why it did not go on, and what to do; null where nothing is wrong. */
  trouble: string | null;
}

/** Whether the page works without network. */
export interface OfflineState {
  /**
   * `full`: there is no room on the device; `incomplete`: not everything arrived; `never`: this
   * browser or address keeps nothing.
   */
  state: 'unknown' | 'fetching' | 'ready' | 'full' | 'incomplete' | 'never';
  /** What is fetched now, to be kept. */
  what: 'page' | 'recogniser' | 'voice';
  /** 0 to 1, of everything that is kept. */
  progress: number;
  /** A new version of the page waits; `other-pages`: it cannot be taken while others are open. */
  newVersion: 'waiting' | 'other-pages' | null;
}

/** The language of the cues; codes such as `en`. */
export interface LanguageState {
  chosen: string;
  all: string[];
  /** The ear on the device hears it. */
  isHeard: boolean;
  /** The one that was wanted and could not be fetched, or null. */
  notFetched: string | null;
}

/** Whose voice says the cues. */
export interface VoicesState {
  /** The device's own voices of the language, the best first. */
  device: { id: string; name: string; quality: 'good' | 'plain' | 'poor' }[];
  /** The one that speaks, `sayso` for the shipped one; null while the device shows none yet. */
  speaks: string | null;
  /** Its own pace, as measured here; null where it was not, and for the shipped one. */
  wordsPerMinute: number | null;
}

/** What this device knows of its coach. */
export interface CoachState {
  /** Readings that the ear has learnt from; 0 where it has not. */
  readings: number;
  ownWords: OwnWords[];
  /** Replies count only after it; null: they always do. */
  callWord: string | null;
  /** Why it is not kept, or was not found again. */
  trouble: 'refused' | 'full' | 'damaged' | null;
}

export interface VoiceCheckState {
  stage: 'loading' | 'introducing' | 'reading' | 'deaf' | 'nobodyHeard' | 'finished' | 'failed';
  /** What is to be read now. */
  line: {
    text: string;
    isAgain: boolean;
    insteadOf: string | null;
    takenFor: string | null;
  } | null;
  /** The right words were heard, and may go on. */
  isHeard: boolean;
  /** Lines done, of all. */
  done: number;
  of: number;
  /** Once it is finished. */
  results: LineResult[];
}

export interface BeginChoice {
  routine: RoutineId;
  /** Default hands-on. */
  way?: Way;
  /** `hands`: by touch and keys alone; the microphone is not asked for. */
  listen: 'microphone' | 'hands';
  /** Equipment that is not in this gym; none where left out. */
  missing?: EquipmentId[];
}

/** What `main` hands to the screens: the state to show, and what a person may do. */
export interface Seat {
  subscribe(onChange: () => void): () => void;
  /** The same object until something changes (for useSyncExternalStore). */
  state(): SeatState;
  /** Opens the microphone to show its level at the start gate; starts no session. */
  tryMicrophone(): void;
  people: PeopleHands;
  squadDay: SquadDayHands;
  warmUp: WarmUpHands;
  record: RecordHands;
  lock: LockHands;
  elsewhere: ElsewhereHands;
  homework: HomeworkHands;
  visits: VisitHands;
  microphoneCheck: MicrophoneCheckHands;
  keys: KeysHands;
  level: LevelHands;
  /** Called inside a tap, so that sound, voice and microphone may be unlocked there. */
  begin(choice: BeginChoice): void;
  watchRehearsal(routine: RoutineId): void;
  /** Takes up an unfinished session at its open question. */
  goOn(session: string): void;
  /**
   * Leaves an unfinished session as it is in the record; it is not offered again before the page
   * is loaded anew, but on the page of its athlete.
   */
  discard(session: string): void;
  reply(reply: Reply): void;
  /** Typed words, understood as spoken ones are. */
  type(text: string): void;
  /** Loads the page anew in this language, which is remembered. */
  chooseLanguage(language: string): void;
  /** A key of a keyboard, pedal or headset that no control of the screen used. */
  key(event: KeyboardEvent): void;
  /** Seconds since the session started, on the clock of `atSeconds`. */
  nowSeconds(): number;
  /** That voice speaks from now on, and says a line now, from a tap: `sayso` is the shipped one. */
  chooseVoice(id: string): void;
  /** So much is said from the next session on; kept on this device. */
  chooseWords(words: Words): void;
  /** Plays this file under the session, from a tap; it gives way to every word. */
  playMusic(file: File): void;
  removeMusic(): void;
  /** Begins a voice check, from a tap. */
  checkVoice(): void;
  /** Of the voice check: leaves the line out; tries again where it waits; ends it. */
  steerVoiceCheck(how: 'skip' | 'go-on' | 'stop'): void;
  forgetVoice(): void;
  /** Adds words for a reply; null once they are added, else why not and what to do. */
  addOwnWords(reply: ReplyName, typed: string): Promise<string | null>;
  removeOwnWords(words: OwnWords): void;
  /** Null where the word is taken, or where there is none from now on; else why not. */
  setCallWord(typed: string): Promise<string | null>;
  /** Loads the page anew in the version that waits; nothing happens while a session runs. */
  takeNewVersion(): void;
  /** Out of what is under way: from the voice check to the gate, else to the people. */
  leave(): void;
}

export interface SeatStore {
  state(): SeatState;
  subscribe(onChange: () => void): () => void;
  /** Replaces the given fields and tells the subscribers. */
  patch(change: Partial<SeatState>): void;
}

/** Keeps the seat's state; `main` patches it, the screens subscribe. */
export function createSeatStore(initial: SeatState): SeatStore {
  let current = initial;
  const subscribers = new Set<() => void>();
  return {
    state: () => current,
    subscribe(onChange) {
      subscribers.add(onChange);
      return () => subscribers.delete(onChange);
    },
    patch(change) {
      current = { ...current, ...change };
      for (const tell of [...subscribers]) tell();
    },
  };
}
