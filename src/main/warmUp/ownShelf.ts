import { z } from 'zod';
import { warmUpSchema } from '../../cues/schemas/warmUp';
import type { CueBook } from '../../domain/script';
import { warmUpProblems } from '../../domain/warmUp/problems';
import type { WarmUp } from '../../domain/warmUp/warmUp';

/** Why warm-ups of one's own are not kept, or were not all found again. */
export type OwnTrouble = 'refused' | 'full' | 'damaged';

/** Keeps warm-ups of a coach's own on this device, for the language of the cues. */
export interface OwnShelf {
  /** In the order they were kept; `damaged`: what could not be read was set aside. */
  load(): { own: WarmUp[]; trouble: OwnTrouble | null };
  /** Beside the others, or in place of the one of that id; null once it is kept. */
  keep(warmUp: WarmUp): OwnTrouble | null;
  /** Null once it is gone. */
  remove(id: string): OwnTrouble | null;
}

const shape = z.strictObject({
  format: z.literal('sayso-warm-ups-1'),
  warmUps: z.array(z.unknown()),
});

/** In the page's storage; `storage` throws where the browser refuses it. */
export function createOwnShelf(storage: () => Storage, book: CueBook): OwnShelf {
  const key = `sayso-warm-ups-${book.language}`;
  const write = (own: readonly WarmUp[]): OwnTrouble | null => {
    try {
      storage().setItem(key, JSON.stringify({ format: 'sayso-warm-ups-1', warmUps: own }));
      return null;
    } catch (problem) {
      return problem instanceof Error && /quota/i.test(problem.name) ? 'full' : 'refused';
    }
  };
  const load: OwnShelf['load'] = () => {
    try {
      const text = storage().getItem(key);
      if (text === null) return { own: [], trouble: null };
      const { own, isWhole } = readable(book, text);
      if (isWhole) return { own, trouble: null };
      // What could not be read lies there, for whoever wants to look.
      storage().setItem(`${key}-damaged`, text);
      write(own);
      return { own, trouble: 'damaged' };
    } catch {
      return { own: [], trouble: 'refused' };
    }
  };
  return {
    load,
    keep(warmUp) {
      // Another window may have kept some meanwhile.
      const { own } = load();
      const isKnown = own.some(({ id }) => id === warmUp.id);
      return write(
        isKnown ? own.map((each) => (each.id === warmUp.id ? warmUp : each)) : [...own, warmUp],
      );
    },
    remove: (id) => write(load().own.filter((each) => each.id !== id)),
  };
}

function readable(book: CueBook, text: string): { own: WarmUp[]; isWhole: boolean } {
  try {
    const { warmUps } = shape.parse(JSON.parse(text));
    const own = warmUps.flatMap((each) => {
      const { data } = warmUpSchema.safeParse(each);
      return data !== undefined && warmUpProblems(book, data).length === 0 ? [data] : [];
    });
    const one = new Map(own.map((each) => [each.id, each]));
    return { own: [...one.values()], isWhole: one.size === warmUps.length };
  } catch {
    return { own: [], isWhole: false };
  }
}
