import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { secondsIn } from '../../src/cli/durations';
import type { TimedEvent } from '../../src/cli/rehearsalHall';
import { rehearse, type Rehearsed } from '../../src/cli/rehearsing';
import { readReplies } from '../../src/cli/replies';
import { bookOf } from '../../src/cli/verb';
import { DEFAULT_SETTINGS, type SessionSettings } from '../../src/domain/log';
import type { CueBook } from '../../src/domain/script';
import { readable } from './rendering';

export const folder = fileURLToPath(new URL('.', import.meta.url));
const REPLIES = '.replies.txt';

/** Every session that is kept here: the name of its files, and the routine it runs. */
export const SESSIONS = {
  'all-ready': 'readiness',
  'short-on-one-side': 'overhead',
  'overhead-given-up': 'overhead',
  'squat-given-up': 'squat',
  'hinge-given-up': 'hinge',
  'under-the-bar': 'hinge',
  'three-areas': 'readiness',
  'pain-2': 'hinge',
  'pain-4': 'squat',
  'pain-7': 'readiness',
  'pain-sharp': 'hinge',
  'red-flag': 'readiness',
  stopped: 'overhead',
  silence: 'readiness',
  overruled: 'squat',
  undone: 'hinge',
  'undone-not': 'hinge',
  contradictions: 'overhead',
  talkative: 'overhead',
  'spanish-hinge': 'hinge',
  'overhead-in-tones': 'overhead',
  'words-by-voice': 'hinge',
} as const;
export type SessionName = keyof typeof SESSIONS;
export const NAMES = Object.keys(SESSIONS) as SessionName[];

/** Where a session has other settings than the usual. */
const SETTINGS: Partial<Record<SessionName, Partial<SessionSettings>>> = {
  'overhead-in-tones': { words: 'tones' },
};

/** The names of the replies files that are there. */
export const written = (): string[] =>
  readdirSync(folder)
    .filter((file) => file.endsWith(REPLIES))
    .map((file) => file.slice(0, -REPLIES.length));

export const repliesPath = (name: SessionName): string => `${folder}${name}${REPLIES}`;
export const timelinePath = (name: SessionName): string => `${folder}${name}.timeline.txt`;

export const book = bookOf();

/** Sessions that are not in the language of `book`. */
const LANGUAGES: Partial<Record<SessionName, string>> = { 'spanish-hinge': 'es' };

/** The book that a session is run by. */
export const bookFor = (name: SessionName): CueBook =>
  name in LANGUAGES ? bookOf(LANGUAGES[name]) : book;

/** A session as it went, with what tests ask of it. */
export interface Session extends Rehearsed {
  text: string;
  /** Events of a type, in order. */
  all<T extends TimedEvent['type']>(type: T): Extract<TimedEvent, { type: T }>[];
  end: Extract<TimedEvent, { type: 'end' }>;
  /** Everything that is spoken, in order. */
  cues: string[];
  /** Rules of the decisions, in order. */
  rules: string[];
  /** Checks and drills that were begun, in order. */
  steps: string[];
}

const sessions = new Map<SessionName, Session>();

/** Runs a session with its replies; the same object where it was asked for before. */
export function sessionOf(name: SessionName): Session {
  const known = sessions.get(name);
  if (known) return known;
  const session = run(name);
  sessions.set(name, session);
  return session;
}

/** Runs a session anew; `interruption` is said at its second of the session, besides the file. */
export function run(
  name: SessionName,
  interruption?: { text: string; atSeconds: number },
): Session {
  const replies = readReplies(repliesPath(name));
  if (interruption) replies.timed.push({ line: 0, audio: null, ...interruption });
  const spoken = bookFor(name);
  const rehearsed = rehearse({
    book: spoken,
    routine: SESSIONS[name],
    way: 'hands-on',
    settings: { ...DEFAULT_SETTINGS, ...SETTINGS[name] },
    secondsOf: secondsIn(spoken.language),
    replies,
  });
  const all = <T extends TimedEvent['type']>(type: T) =>
    rehearsed.timeline.filter(
      (event): event is Extract<TimedEvent, { type: T }> => event.type === type,
    );
  const [end] = all('end');
  if (end === undefined) throw new Error(`${name} has no end.`);
  return {
    ...rehearsed,
    text: readable(rehearsed),
    all,
    end,
    cues: all('cue').map(({ text }) => text),
    rules: all('decision').map(({ rule }) => rule),
    steps: all('step').map(({ prompt }) => prompt.replace(/^.*\//, '')),
  };
}
