import type { Note } from '../ports';

/** In the order of writing; those of one moment as they lie. */
export const oldestFirst = (one: Note, other: Note): number =>
  Date.parse(one.writtenAt) - Date.parse(other.writtenAt);
