import type { Sheet } from '../../domain/people/sheet';
import type { Open } from '../../domain/people/openFor';
import type { Person } from '../../domain/people/person';
import type { ListKind } from '../../domain/people/takenOut';
import type { SessionOutcomes } from '../../ports';

/** An athlete with what their sessions left. */
export interface PersonKnown {
  person: Person;
  open: Open;
  /** Newest first. */
  visits: SessionOutcomes[];
}

/** Part of the list: a squad, those who are due again, those for whom a professional decides. */
export type Only = { squad: string } | 'due' | 'waits';

export interface PeopleState {
  state: 'loading' | 'here';
  /** What could not be read or kept, and what to do about it; null where nothing is wrong. */
  trouble: string | null;
  /** In the order of their names. */
  all: PersonKnown[];
  /** Id of the one whose page is shown or for whom a session begins; null: nobody named. */
  chosen: string | null;
  /** Whom the list shows; everybody where nothing is said. */
  only?: Only | null;
  /** ISO date on the calendar of this place. */
  today: string;
}

/** What a person may do with the people whom this device keeps. */
export interface PeopleHands {
  /** To the list. */
  show(): void;
  showOne(id: string): void;
  /** To where athletes come out of a spreadsheet. */
  showImport(): void;
  /** The list shows these alone from now on; null: everybody. */
  narrow(only: Only | null): void;
  /** To the start gate, for this one or for nobody named. */
  toGate(id: string | null): void;
  /** Adds or replaces; null once it is kept, else what to do. */
  save(people: Person[]): Promise<string | null>;
  /** Forgets who it was; the entries of their sessions stay, without a name. */
  remove(id: string): Promise<string | null>;
  /** Reads a spreadsheet; keeps nothing of it. `say`: why it cannot be read, and what to do. */
  readSheet(file: Blob): Promise<{ sheet: Sheet } | { say: string }>;
  /** A file for the downloads of this device, by its name; `say`: why not, and what to do. */
  takeOut(kind: ListKind): Promise<{ file: string } | { say: string }>;
  showInvented(): Promise<string | null>;
  removeInvented(): Promise<string | null>;
}

/** The chosen one; null where nobody is named. */
export const chosenOf = ({ all, chosen }: PeopleState): PersonKnown | null =>
  all.find(({ person }) => person.id === chosen) ?? null;
