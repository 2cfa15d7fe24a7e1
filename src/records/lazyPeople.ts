import type { People } from '../ports';
import { loadedOnce } from './loadedOnce';

/** People whose keeper is loaded when it is first asked for, as `lazyRecords` are. */
export function lazyPeople(load: () => Promise<People>): People {
  const people = loadedOnce(load);
  return {
    all: async () => (await people()).all(),
    ids: async () => (await people()).ids(),
    save: async (those) => (await people()).save(those),
    remove: async (ids) => (await people()).remove(ids),
  };
}
