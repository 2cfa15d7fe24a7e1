import type { SinceLastVisit } from '../../domain/reporting/lastVisit';
import type { Moment } from '../../domain/reporting/moments';
import type { SessionHead } from '../../ports';
import type { Told } from '../view';

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

/** What a person may do with the record of a session afterwards. */
export interface VisitHands {
  /** A past session, to read. */
  open(session: string): void;
}
