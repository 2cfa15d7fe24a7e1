import type { Keeping } from './dexieKeeping';
import { loadedOnce } from './loadedOnce';

/** What looks after all that is kept, loaded when it is first asked for. */
export function lazyKeeping(load: () => Promise<Keeping>): Keeping {
  const keeping = loadedOnce(load);
  return {
    whole: async () => (await keeping()).whole(),
    bringIn: async (record, isTrial) => (await keeping()).bringIn(record, isTrial),
    upToDamage: async (session) => (await keeping()).upToDamage(session),
    damage: async () => (await keeping()).damage(),
  };
}
