import { everyTurn, type SquadDay, type Standing, type Turn } from '../../domain/people/squadDay';
import type { EndReason } from '../../domain/log';
import type { PersonKnown } from '../people/state';
import type { ShapeName } from '../Shape';

/** One of the day who is still kept on this device. */
export interface Row extends Turn {
  known: PersonKnown;
  stands: Standing;
}

/** Everybody of the day who is still kept here, in the order of the day. */
export const rowsOf = (day: SquadDay, all: readonly PersonKnown[]): Row[] =>
  everyTurn(day).flatMap((turn) => {
    const known = all.find(({ person }) => person.id === turn.person);
    return known === undefined ? [] : [{ ...turn, known }];
  });

/** Those who are still to come, the next first. */
export const comingOf = (rows: readonly Row[]): Row[] =>
  rows.filter(({ stands }) => stands === 'waiting' || stands === 'later');

export const nameIn = (all: readonly PersonKnown[], id: string): string =>
  all.find(({ person }) => person.id === id)?.person.name ?? '';

export const STANDING_WORDS: Record<Standing, string> = {
  seen: 'seen',
  now: 'now',
  waiting: 'to come',
  later: 'comes back later',
};

export const STANDING_SHAPES: Record<Standing, ShapeName> = {
  seen: 'held',
  now: 'voice',
  waiting: 'not-tested',
  later: 'short',
};

export const countOf = (number: number, one: string, many: string): string =>
  `${number} ${number === 1 ? one : many}`;

const ENDED_WORDS: Record<EndReason, string | null> = {
  completed: null,
  stopped: 'You ended the session before everything was done.',
  'red-flag': 'Ended on a warning sign. A licensed professional decides what comes next.',
  'replies-ended': 'A question stayed open.',
};

/** What was left open of somebody's turn, and why; null where nothing was. */
export function leftOpenOf({ session, stands, known }: Row): string | null {
  if (session === null) {
    return stands === 'later'
      ? 'Put off, and not come back to. No session was begun.'
      : 'Not had a turn. No session was begun.';
  }
  const head = known.visits.find((visit) => visit.head.session === session)?.head;
  if (stands === 'seen') return ENDED_WORDS[head?.ended ?? 'completed'];
  return stands === 'later'
    ? 'Left for the next person. It goes on where it stopped.'
    : 'Cut off. It goes on where it stopped.';
}
