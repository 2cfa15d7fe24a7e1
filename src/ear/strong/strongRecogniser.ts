import type { CoachEar } from '../coach/coachEar';
import type { Look, Recogniser } from '../recognising';
import type { WhySmall } from '../sizes';
import type { FromStrongWorker, Numbered, ToStrongWorker } from './messages';

/** The part of a Worker that is used. */
export interface StrongWorkerHandle {
  postMessage(message: ToStrongWorker): void;
  onmessage: ((event: MessageEvent<FromStrongWorker>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  terminate(): void;
}

/** The strong ear in a worker of its own. */
export interface StrongRecogniser extends Pick<Recogniser, 'look'> {
  fit(coach: CoachEar): void;
  /** Gives back its memory. Looks that are out reject. */
  close(): void;
}

/**
 * Starts it. `ready`: it answers looks from now on. `gone`: it does not, or no longer, and its
 * memory is given back; looks that are out reject. One of the two is told, `gone` also later.
 */
export function startStrong(
  worker: StrongWorkerHandle,
  assetsBase: string,
  told: { ready: () => void; gone: (why: WhySmall) => void },
): StrongRecogniser {
  const out = new Map<number, { resolve: (look: Look) => void; reject: (why: Error) => void }>();
  let looks = 0;
  let isClosed = false;
  let number = numbering();

  const close = () => {
    isClosed = true;
    worker.terminate();
    for (const { reject } of out.values()) reject(new Error('The strong ear is gone.'));
    out.clear();
  };
  const go = (why: WhySmall) => {
    if (isClosed) return;
    close();
    told.gone(why);
  };
  worker.onerror = () => go('damaged');
  worker.onmessage = ({ data }) => {
    if (data.type === 'ready') return told.ready();
    if (data.type === 'gone') return go(data.why);
    const waiting = out.get(data.look);
    if (data.type === 'looked') waiting?.resolve(data.found);
    else waiting?.reject(new Error(data.detail));
    out.delete(data.look);
  };
  worker.postMessage({ type: 'start', assetsBase });
  return {
    look: (samples, grammar, lexicon, how = {}) =>
      new Promise((resolve, reject) => {
        if (isClosed) return reject(new Error('The strong ear is gone.'));
        const look = (looks += 1);
        out.set(look, { resolve, reject });
        const asked = { grammar: number(grammar), lexicon: number(lexicon) };
        worker.postMessage({ type: 'look', look, samples, ...asked, how });
      }),
    fit: (coach) => {
      number = numbering();
      worker.postMessage({ type: 'fit', coach });
    },
    close,
  };
}

/** Numbers things, and hands each out with its number the first time. */
function numbering(): <Thing extends object>(thing: Thing) => Numbered<Thing> {
  const numbers = new WeakMap<object, number>();
  let count = 0;
  return (thing) => {
    const known = numbers.get(thing);
    if (known !== undefined) return { number: known };
    count += 1;
    numbers.set(thing, count);
    return { number: count, thing };
  };
}
