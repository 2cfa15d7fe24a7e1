import type { Open } from '../../domain/people/openFor';
import type { Person } from '../../domain/people/person';
import type { Moment } from '../../domain/reporting/moments';
import type { SinceLastVisit } from '../../domain/reporting/lastVisit';
import type { SessionHead, SessionOutcomes } from '../../ports';
import type { Told } from '../view';

/** An athlete with what their sessions left. */
export interface PersonKnown {
  person: Person;
  open: Open;
  /** Newest first. */
  visits: SessionOutcomes[];
}

export interface PeopleState {
  state: 'loading' | 'here';
  /** What could not be read or kept, and what to do about it; null where nothing is wrong. */
  trouble: string | null;
  /** In the order of their names. */
  all: PersonKnown[];
  /** Id of the one whose page is shown or for whom a session begins; null: nobody named. */
  chosen: string | null;
  /** ISO date on the calendar of this place. */
  today: string;
}

/** A session as it is read afterwards. */
export interface Visit {
  head: SessionHead;
  /** Null where it never ended and nothing can be told of it. */
  end: Told<'end'>;
  moments: Moment[];
  /** Beside the visit before, where there is one of the same person. */
  since: { before: SessionHead; told: SinceLastVisit } | null;
}

/** `trouble`: why it cannot be read, and what to do. */
export type VisitState =
  { state: 'loading' } | { state: 'trouble'; trouble: string } | ({ state: 'here' } & Visit);

/** What a person may do with the people whom this device keeps. */
export interface PeopleHands {
  /** To the list. */
  show(): void;
  showOne(id: string): void;
  /** To the start gate, for this one or for nobody named. */
  toGate(id: string | null): void;
  /** Adds or replaces; null once it is kept, else what to do. */
  save(people: Person[]): Promise<string | null>;
  /** Forgets who it was; the entries of their sessions stay, without a name. */
  remove(id: string): Promise<string | null>;
  showInvented(): Promise<string | null>;
  removeInvented(): Promise<string | null>;
  /** A past session, to read. */
  openVisit(session: string): void;
}

/** The chosen one; null where nobody is named. */
export const chosenOf = ({ all, chosen }: PeopleState): PersonKnown | null =>
  all.find(({ person }) => person.id === chosen) ?? null;
