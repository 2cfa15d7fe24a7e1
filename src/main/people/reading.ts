/** What is read of people and their sessions; behind the first screen, since it needs the rules. */
import { found } from '../../domain/people/found';
import { openFor, openByPerson } from '../../domain/people/openFor';
import type { Person } from '../../domain/people/person';
import { momentsOf } from '../../domain/reporting/moments';
import { sinceLastVisit } from '../../domain/reporting/lastVisit';
import { outcomeOf } from '../../domain/reporting/report';
import type { Entry } from '../../domain/log';
import type { CueBook } from '../../domain/script';
import type { SessionHead, SessionOutcomes } from '../../ports';
import type { Visit } from '../../screens/finished/state';
import type { PersonKnown } from '../../screens/people/state';

/** People in the order of their names, each with what their sessions left. */
export function known(
  book: CueBook,
  people: readonly Person[],
  sessions: readonly SessionOutcomes[],
  today: string,
): PersonKnown[] {
  const open = openByPerson(book, sessions, today);
  const nothing = openFor(book, [], today);
  return found(people, '').map((person) => ({
    person,
    open: open.get(person.id) ?? nothing,
    visits: sessions.filter(({ head }) => head.person === person.id),
  }));
}

/** A session by its log. Throws where its routine is not in this book. */
export function visitOf(
  book: CueBook,
  head: SessionHead,
  log: readonly Entry[],
  before: { head: SessionHead; log: readonly Entry[] } | null,
): Visit {
  const reason = head.ended ?? 'replies-ended';
  return {
    head,
    end: { type: 'end', reason, ...outcomeOf(book, log) },
    moments: momentsOf(book, log),
    since: before && {
      before: before.head,
      told: sinceLastVisit(book, before.log, log),
    },
  };
}
