import type { Note } from '../../src/ports';
import type { VisitHands } from '../../src/screens/finished/state';
import type { Did } from './fakeSeat';

/** The last note that each person has, by id. */
export const LAST_NOTES: Record<string, Note> = {
  marn: {
    ...{ id: 'n1', session: 's2', person: 'marn', writtenAt: '2031-03-01T09:40:00+01:00' },
    text: 'Slept badly.\nLook at the left heel next time.',
  },
};

/** Remembers what is done with the record of a session; `answer`: why nothing of it is kept. */
export const fakeVisits = (did: Did[], answer: string | null = null): VisitHands => {
  const kept =
    (what: string) =>
    async (...withWhat: unknown[]) => {
      did.push([what, ...withWhat]);
      return answer;
    };
  return {
    open: (session) => did.push(['visit', session]),
    correct: kept('correct'),
    close: kept('close'),
    addNote: kept('addNote'),
    removeNote: kept('removeNote'),
    saveSheet: kept('saveSheet'),
    lastNote: async (person) => LAST_NOTES[person] ?? null,
  };
};
