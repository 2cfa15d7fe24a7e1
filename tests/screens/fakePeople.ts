import type { PeopleHands } from '../../src/screens/people/state';
import type { Did } from './fakeSeat';

/** Remembers what is done with people; `answer`: what is wrong with what is to be kept. */
export const fakePeople = (did: Did[], answer: string | null): PeopleHands => ({
  show: () => did.push(['people']),
  showOne: (id) => did.push(['athlete', id]),
  toGate: (id) => did.push(['gate', id]),
  save: async (people) => {
    did.push(['save', people]);
    return answer;
  },
  remove: async (id) => {
    did.push(['forget', id]);
    return answer;
  },
  showInvented: async () => {
    did.push(['showInvented']);
    return answer;
  },
  removeInvented: async () => {
    did.push(['removeInvented']);
    return answer;
  },
});
