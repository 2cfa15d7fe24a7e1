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
  const write = (manners: (readonly [athlete: string, manner: Manner])[]) =>
    shelf.save(JSON.stringify(Object.fromEntries(manners)));
  return {
    load(athlete) {
      const manners = read();
      return manners.get(athlete ?? NOBODY) ?? manners.get(NOBODY) ?? USUAL_MANNER;
    },
    save(athlete, manner) {
      const manners = read();
      manners.delete(athlete ?? NOBODY);
      write([...manners, [athlete ?? NOBODY, manner] as const].slice(-MOST_KEPT));
    },
    keepOnly(athletes) {
      const manners = [...read()];
      const kept = manners.filter(([athlete]) => athlete === NOBODY || athletes.includes(athlete));
      if (kept.length < manners.length) write(kept);
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
