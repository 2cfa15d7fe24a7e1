/**
 * What an athlete sends back of the homework: of each session what happened, and nobody's name.
 * What was asked, heard and concluded stays at home: it decides nothing (rule 8.1), and the coach's
 * device draws its own conclusions.
 */
import type { Entry, EntryOf, FactType } from '../log';
import { HOMEWORK } from './progressDay';
import { RefusedHandover } from './refused';

/** A session of homework, as it was logged on the athlete's device. */
export interface ReportedSession {
  session: string;
  /** In their order, the start first. */
  entries: Entry[];
}

/** What came of homework. */
export interface HomeworkReport {
  /** Id of the handover: by it the coach's device knows whose it is. */
  handover: string;
  /** Oldest first. */
  sessions: ReportedSession[];
}

/** What of a log is sent. */
const SENT: readonly FactType[] = [
  ...(['started', 'finding', 'pain-number', 'pain-kind', 'morning', 'red-flag'] as const),
  ...(['overrule', 'halted', 'end-answered', 'paused', 'resumed', 'undone'] as const),
  ...(['outcome', 'ended', 'corrected'] as const),
];

/** A clock that runs ahead by more than this is wrong, and its session would be the newest for ever. */
const AHEAD_MOST_MILLISECONDS = 24 * 60 * 60 * 1000;

/** The start of a session; undefined where there is none. */
export const startOf = (entries: readonly Entry[]): EntryOf<'started'> | undefined =>
  entries.find((entry) => entry.type === 'started');

/** What is sent back of the sessions of that handover; `logs`: a session each, oldest first. */
export const reportBack = (handover: string, logs: readonly ReportedSession[]): HomeworkReport => ({
  handover,
  sessions: logs.map(({ session, entries }) => ({
    session,
    entries: entries.filter(({ type }) => SENT.includes(type)),
  })),
});

/**
 * Throws RefusedHandover where a report holds anything but sessions of its homework, alone, each
 * entry of its session, once and in time. `now`: milliseconds since 1970.
 */
export function mustBeHomework({ handover, sessions }: HomeworkReport, now: number): void {
  sessions.forEach(({ session, entries }, at) => {
    const place = `sessions[${at}]`;
    if (sessions.findIndex((other) => other.session === session) < at) {
      refuse(`${place}.session`, `"${session}" stands there twice.`);
    }
    const [start] = entries;
    if (start?.type !== 'started') {
      refuse(`${place}.entries[0]`, 'a session begins with its start.');
    }
    if (start.routine !== HOMEWORK || start.way !== 'alone') {
      refuse(`${place}.entries[0]`, 'it is no homework that was done alone.');
    }
    if (start.homework?.handover.id !== handover) {
      refuse(`${place}.entries[0].homework`, 'it is of other homework.');
    }
    if (start.person !== undefined) {
      refuse(`${place}.entries[0].person`, 'who it was is not sent along.');
    }
    if (Date.parse(start.startedAt) > now + AHEAD_MOST_MILLISECONDS) {
      const day = start.startedAt.slice(0, 10);
      refuse(
        `${place}.entries[0].startedAt`,
        `${day} is still to come. One of the clocks is wrong.`,
      );
    }
    mustBeInOrder(session, entries, place);
  });
}

function mustBeInOrder(session: string, entries: readonly Entry[], place: string): void {
  const seen = new Set<string>();
  let last = 0;
  entries.forEach((entry, at) => {
    const { id, atSeconds, type } = entry;
    const where = `${place}.entries[${at}]`;
    if (entry.type === 'outcome' && entry.outcome === 'ready') {
      refuse(`${where}.outcome`, 'homework makes nothing ready; a coach tests that.');
    }
    if (!id.startsWith(`${session}:`) || id.split(':').length !== 3) {
      refuse(`${where}.id`, `"${id}" is not of the session "${session}".`);
    }
    if (seen.has(id)) refuse(`${where}.id`, `"${id}" stands there twice.`);
    seen.add(id);
    if (!SENT.includes(type)) refuse(`${where}.type`, `what was ${type} is not sent along.`);
    if (at > 0 && type === 'started') refuse(`${where}.type`, 'a session starts once.');
    if (atSeconds < last) refuse(`${where}.atSeconds`, 'it is before the entry in front of it.');
    last = atSeconds;
  });
}

/**
 * The entries of a report as they join the record of `person`, by id; null: of nobody named. Only
 * the start says whose session it is.
 */
export const joining = ({ sessions }: HomeworkReport, person: string | null): Entry[] =>
  sessions.flatMap(({ entries }) =>
    entries.map((entry) =>
      entry.type === 'started' && person !== null ? { ...entry, person } : entry,
    ),
  );

function refuse(place: string, reason: string): never {
  throw new RefusedHandover('report', place, reason);
}
