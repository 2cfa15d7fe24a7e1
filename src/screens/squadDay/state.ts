/** A squad day: who is to be seen, one after the other. */
export interface SquadDayState {
  /** Ids of people, in their order. */
  waiting: string[];
}

/** What a person may do on a squad day. */
export interface SquadDayHands {
  /** To choose who is to be seen, or to the squad day that is under way. */
  show(): void;
  /** Back to the list. */
  leave(): void;
}
