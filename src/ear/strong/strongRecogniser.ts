import type { CoachEar } from '../coach/coachEar';
import type { Look, Recogniser } from '../recognising';
import type { WhySmall } from '../sizes';
import type { FromStrongWorker, Numbered, ToStrongWorker } from './messages';

/**
 * A look that is not answered within two of these never will be: sound waits for it, and a "stop"
 * would be lost. Two, since a page that was frozen finds the first over before any answer can come.
 */
const PATIENCE_MILLISECONDS = 2500;

/** Runs it once after so long; what is returned calls it off. */
export type Wait = (milliseconds: number, run: () => void) => () => void;

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
  wait: Wait,
): StrongRecogniser {
  const out = new Map<number, Out>();
  let looks = 0;
  let isClosed = false;
  let number = numbering();

  const close = () => {
    isClosed = true;
    worker.terminate();
    for (const each of out.values()) {
      each.callOff();
      each.reject(new Error('The strong ear is gone.'));
    }
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
    waiting?.callOff();
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
        const asking: Out = { resolve, reject, callOff: () => undefined };
        asking.callOff = wait(PATIENCE_MILLISECONDS, () => {
          asking.callOff = wait(PATIENCE_MILLISECONDS, () => go('slow'));
        });
        out.set(look, asking);
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

/** A look that is out. */
interface Out {
  resolve: (look: Look) => void;
  reject: (why: Error) => void;
  /** Nobody waits for it any more. */
  callOff: () => void;
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
