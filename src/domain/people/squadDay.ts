/** A squad day: athletes who are seen one after the other, and what becomes of each. Pure. */

/** One athlete's turn. */
export interface Turn {
  /** By the id of person.ts. */
  person: string;
  /** The session that was begun for it; null where none was. */
  session: string | null;
}

/** Everybody of the day has one turn, in exactly one of these. */
export interface SquadDay {
  /** Whose session runs. */
  now: Turn | null;
  /** Who has not had their turn yet, the next first. */
  waiting: readonly Turn[];
  /** Who was put off, to be come back to after those who wait; the first put off first. */
  later: readonly Turn[];
  /** Whose session has ended, in that order. */
  seen: readonly Turn[];
}

/** How somebody stands in the day. */
export type Standing = 'seen' | 'now' | 'waiting' | 'later';

/**
 * A day for these people, in this order; nobody has been seen. Throws a RangeError where nobody or
 * somebody twice is named.
 */
export function squadDayOf(people: readonly string[]): SquadDay {
  const twice = people.find((person, at) => people.indexOf(person) < at);
  if (twice !== undefined) throw new RangeError(`${twice} is named twice: one turn each.`);
  if (people.length === 0) throw new RangeError('Nobody is named: a squad day needs somebody.');
  const waiting = people.map((person) => ({ person, session: null }));
  return { now: null, waiting, later: [], seen: [] };
}

/** Who is still to come, the next first; whose session runs is not among them. */
export const toCome = ({ waiting, later }: SquadDay): Turn[] => [...waiting, ...later];

/** Everybody, in the order of the day: seen, now, waiting, put off. */
export const everyTurn = (day: SquadDay): (Turn & { stands: Standing })[] => [
  ...day.seen.map((turn) => ({ ...turn, stands: 'seen' as const })),
  ...(day.now === null ? [] : [{ ...day.now, stands: 'now' as const }]),
  ...day.waiting.map((turn) => ({ ...turn, stands: 'waiting' as const })),
  ...day.later.map((turn) => ({ ...turn, stands: 'later' as const })),
];

/**
 * The next one's turn begins, with the session that was left open for it, else with `session`.
 * Nothing changes while a session runs, or where nobody is left.
 */
export function begun(day: SquadDay, session: string): SquadDay {
  const [next] = toCome(day);
  if (day.now !== null || next === undefined) return day;
  return { ...withoutTurn(day, next), now: { ...next, session: next.session ?? session } };
}

/** Whether `putOff` would change anything: somebody else is still to come. */
export const mayPutOff = (day: SquadDay): boolean =>
  toCome(day).length > (day.now === null ? 1 : 0);

/**
 * Whose session runs, else who is next, goes to the end of those to come back to; their session
 * stays open. Nothing changes where nobody else is left.
 */
export function putOff(day: SquadDay): SquadDay {
  const who = day.now ?? toCome(day)[0];
  if (who === undefined || !mayPutOff(day)) return day;
  const rest = withoutTurn(day, who);
  return { ...rest, later: [...rest.later, who] };
}

/** The session that runs has ended. */
export const ended = (day: SquadDay): SquadDay =>
  day.now === null ? day : { ...day, now: null, seen: [...day.seen, day.now] };

/** The day stands still, as where its page was closed: whose session ran is next, and goes on. */
export const cutOff = (day: SquadDay): SquadDay =>
  day.now === null ? day : { ...day, now: null, waiting: [day.now, ...day.waiting] };

/** The day without those who are not kept any more. */
export function among(day: SquadDay, isKept: (person: string) => boolean): SquadDay {
  const kept = ({ person }: Turn) => isKept(person);
  return {
    now: day.now !== null && kept(day.now) ? day.now : null,
    waiting: day.waiting.filter(kept),
    later: day.later.filter(kept),
    seen: day.seen.filter(kept),
  };
}

/** What was kept of a day; null where it is none, or has somebody twice. */
export function squadDayFrom(kept: unknown): SquadDay | null {
  if (!isRecord(kept)) return null;
  const { now, waiting, later, seen } = kept;
  if (now !== null && !isTurn(now)) return null;
  if (!isTurns(waiting) || !isTurns(later) || !isTurns(seen)) return null;
  const day = { now, waiting, later, seen };
  const people = everyTurn(day).map(({ person }) => person);
  return new Set(people).size === people.length ? day : null;
}

const withoutTurn = (day: SquadDay, turn: Turn): SquadDay => ({
  now: day.now === turn ? null : day.now,
  waiting: day.waiting.filter((one) => one !== turn),
  later: day.later.filter((one) => one !== turn),
  seen: day.seen,
});

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

const isTurn = (value: unknown): value is Turn =>
  isRecord(value) &&
  typeof value.person === 'string' &&
  (value.session === null || typeof value.session === 'string');

const isTurns = (value: unknown): value is Turn[] => Array.isArray(value) && value.every(isTurn);
