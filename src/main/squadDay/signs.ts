import type { RedFlag } from '../../domain/findings';
import { toCome, type SquadDay } from '../../domain/people/squadDay';
import type { Note } from '../../ports';
import type { Sign } from '../../screens/squadDay/state';
import { RED_FLAG_WORDS } from '../../screens/words';
import { randomName } from '../names';

/** What of a warning sign is heard between two sessions. */
export interface SignHeard {
  flag: RedFlag;
  /** The words, as they were heard. */
  text: string;
}

/**
 * Where a warning sign belongs that was said while no session ran. Whose it is nobody can hear. It
 * goes to the visit of the one whose session ran last, who has just worked; where nobody has, to
 * who is next, under the name that their session will have. A note and no entry of the log: it
 * must not grade the wrong one, and a coach can put it right. Null where nobody is there.
 */
export function signOf(
  day: SquadDay,
  lastRan: string | null,
  { flag, text }: SignHeard,
  writtenAt: string,
  /** A new name for a session of that person. */
  nameSession: (person: string) => string,
): Sign | null {
  const [next] = toCome(day);
  const ran =
    [...day.seen, ...day.later, ...day.waiting].find(({ person }) => person === lastRan) ??
    (next?.session != null ? next : day.seen.at(-1));
  const whose = ran ?? next;
  if (whose === undefined) return null;
  return {
    ...{ id: randomName(), flag, text, writtenAt, isNoted: false },
    person: whose.person,
    session: whose.session ?? nameSession(whose.person),
    hadTurn: ran !== undefined,
  };
}

/** The note of it, for the coach who reads that visit later. */
export const noteOf = ({ id, person, session, flag, text, writtenAt, hadTurn }: Sign): Note => ({
  ...{ id, person, session, writtenAt },
  text: [
    `Warning sign: ${RED_FLAG_WORDS[flag].toLowerCase()}${text === '' ? '' : `, heard as “${text}”`}.`,
    `It was said on a squad day while no session ran, ${hadTurn ? 'after this visit' : 'before their first turn'}; whose it was, Sayso cannot tell.`,
    'If it was theirs, a licensed professional decides before any homework or lifting. If it was not, delete this note here.',
  ].join(' '),
});

/** The signs that were kept of a day; those that are none are left out. */
export const signsFrom = (kept: unknown): Sign[] =>
  Array.isArray(kept) ? kept.filter(isSign) : [];

function isSign(value: unknown): value is Sign {
  if (typeof value !== 'object' || value === null) return false;
  const { flag, isNoted, hadTurn, ...texts } = value as Record<string, unknown>;
  return (
    typeof flag === 'string' &&
    flag in RED_FLAG_WORDS &&
    typeof isNoted === 'boolean' &&
    typeof hadTurn === 'boolean' &&
    [texts.id, texts.person, texts.session, texts.text, texts.writtenAt].every(
      (each) => typeof each === 'string',
    )
  );
}
