/** What is read of people and their sessions; behind the first screen, since it needs the rules. */
import { found } from '../../domain/people/found';
import { openFor, openByPerson } from '../../domain/people/openFor';
import type { Person } from '../../domain/people/person';
import { momentsOf } from '../../domain/reporting/moments';
import { sinceLastVisit } from '../../domain/reporting/lastVisit';
import { outcomeOf } from '../../domain/reporting/report';
import { nextStep } from '../../domain/deciding/deciding';
import type { Entry } from '../../domain/log';
import type { CueBook } from '../../domain/script';
import type { SessionHead, SessionOutcomes } from '../../ports';
import type { Visit } from '../../screens/finished/state';
import type { PersonKnown } from '../../screens/people/state';
import type { Told } from '../../screens/view';

export { momentsOf };

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

/**
 * The check, set or question that a session goes on at; null where only its end is left. Throws
 * where its routine is not in this book.
 */
export function openIn(book: CueBook, log: readonly Entry[]): Told<'step'> | null {
  const { step } = nextStep(book, log);
  if (step.do === 'end') return null;
  const isSet = step.do === 'set';
  return {
    ...{ type: 'step', prompt: step.prompt, side: step.do === 'ask' ? null : step.side },
    ...{ set: isSet ? step.set : null, of: isSet ? step.of : null, rung: isSet ? step.rung : null },
  };
}
