import type { PeopleHands } from '../../src/screens/people/state';
import { readSpreadsheet } from '../../src/records/spreadsheet';
import type { Did } from './fakeSeat';

/** Remembers what is done with people; `answer`: what is wrong with what is to be kept. */
export const fakePeople = (did: Did[], answer: string | null): PeopleHands => ({
  show: () => did.push(['people']),
  showOne: (id) => did.push(['athlete', id]),
  showImport: () => did.push(['import']),
  narrow: (only) => did.push(['narrow', only]),
  readSheet: async (file) => {
    try {
      return { sheet: readSpreadsheet(new Uint8Array(await file.arrayBuffer())) };
    } catch (problem) {
      return { say: (problem as Error).message };
    }
  },
  takeOut: async (kind) => {
    did.push(['takeOut', kind]);
    return answer === null ? { file: `sayso-${kind}.csv` } : { say: answer };
  },
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
