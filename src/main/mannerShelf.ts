import { mannerFrom, USUAL_MANNER, type KeptManners, type Manner } from '../voice/manner';
import { keptText } from './keptText';

/** What is kept where nobody in particular is spoken to. */
const NOBODY = 'nobody';
/** A club and its guests; whoever was adjusted to longest ago is forgotten first. */
const MOST_KEPT = 200;

/**
 * Keeps in the page's storage how loud and how fast each athlete wants to be spoken to. Who was
 * never adjusted to is spoken to as nobody in particular is; that is the usual manner at first, and
 * wherever what was kept cannot be read.
 */
export function createMannerShelf(storage: () => Storage): KeptManners {
  const shelf = keptText(storage, 'sayso-manner');
  const read = () => mannersFrom(shelf.load() ?? '');
  return {
    load(athlete) {
      const manners = read();
      return manners.get(athlete ?? NOBODY) ?? manners.get(NOBODY) ?? USUAL_MANNER;
    },
    save(athlete, manner) {
      const manners = read();
      manners.delete(athlete ?? NOBODY);
      const kept = [...manners, [athlete ?? NOBODY, manner] as const].slice(-MOST_KEPT);
      shelf.save(JSON.stringify(Object.fromEntries(kept)));
    },
  };
}

function mannersFrom(text: string): Map<string, Manner> {
  try {
    const kept: unknown = JSON.parse(text);
    return new Map(
      Object.entries(typeof kept === 'object' && kept !== null ? kept : {}).flatMap(
        ([athlete, each]) => {
          const manner = mannerFrom(each);
          return manner === null ? [] : [[athlete, manner] as const];
        },
      ),
    );
  } catch {
    return new Map();
  }
}
