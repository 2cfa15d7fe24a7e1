/** What the tabs of one browser share, in the hand of a test. */
import { createLine, type Channel } from '../../../src/main/tabs/line';
import { createTabsPlace, type RunsHere } from '../../../src/main/tabs/tabsPlace';
import { createSeatStore } from '../../../src/screens/seat';
import { STATE } from '../../screens/fakeSeat';
import { handClock } from '../../records/handClock';

type Listener = (event: MessageEvent) => void;

/** Channels of one name: what one posts, all the others hear, later. */
function hub() {
  const ends = new Set<{ listeners: Set<Listener>; isFrozen: boolean }>();
  return () => {
    const end = { listeners: new Set<Listener>(), isFrozen: false };
    ends.add(end);
    const channel = {
      postMessage(data: unknown) {
        for (const other of ends) {
          if (other === end) continue;
          queueMicrotask(() => {
            if (other.isFrozen) return;
            for (const listen of other.listeners) listen({ data: structuredClone(data) } as never);
          });
        }
      },
      addEventListener: (_: string, listener: Listener) => end.listeners.add(listener),
      removeEventListener: (_: string, listener: Listener) => end.listeners.delete(listener),
    } as unknown as Channel;
    return { channel, end };
  };
}

interface Held {
  tab: object;
  isShared: boolean;
  lose: (why: Error) => void;
  free: () => void;
}

/** Web Locks as the specification has them, for one name: exclusive, shared, waiting and stolen. */
function lockRoom() {
  let held: Held[] = [];
  let waiting: { isShared: boolean; grant: () => void }[] = [];
  const isFree = (isShared: boolean) =>
    held.length === 0 || (isShared && held.every((one) => one.isShared));
  const next = () => {
    for (;;) {
      const [first] = waiting;
      if (first === undefined || !isFree(first.isShared)) return;
      waiting.shift();
      first.grant();
    }
  };
  return {
    of(tab: object): LockManager {
      const request = (
        _: string,
        { mode, steal, signal }: LockOptions,
        run: (lock: object) => unknown,
      ) =>
        new Promise((resolve, reject: (why: Error) => void) => {
          const isShared = mode === 'shared';
          const grant = () => {
            const free = () => {
              held = held.filter((other) => other !== one);
              next();
            };
            const one: Held = { tab, isShared, lose: reject, free };
            held.push(one);
            void Promise.resolve(run({})).then((answer) => {
              free();
              resolve(answer);
            });
          };
          if (steal) {
            for (const one of held) one.lose(new DOMException('stolen', 'AbortError'));
            held = [];
            return grant();
          }
          const wants = { isShared, grant };
          waiting.push(wants);
          signal?.addEventListener('abort', () => {
            waiting = waiting.filter((other) => other !== wants);
            reject(new DOMException('in vain', 'AbortError'));
          });
          next();
        });
      return { request } as unknown as LockManager;
    },
    /** That tab is gone with all that it holds. */
    kill(tab: object) {
      for (const one of held.filter((other) => other.tab === tab)) one.free();
    },
  };
}

/** Lets everything that waits for nothing but its turn come to pass. */
export const settle = () => new Promise<void>((resolve) => setImmediate(resolve));

/** What a page gets that may store nothing. */
const REFUSING = {
  request: () => Promise.reject(new DOMException('storage is blocked', 'SecurityError')),
} as unknown as LockManager;

/** A browser without tabs yet; `none`: an old one, or an address that is not secure. */
export function browser({ has = 'locks' }: { has?: 'locks' | 'none' | 'refused' } = {}) {
  const clock = handClock();
  const channelOf = hub();
  const locks = lockRoom();
  function openTab() {
    const tab = {};
    const { channel, end } = channelOf();
    const store = createSeatStore({ ...STATE, where: 'people' });
    const did: string[] = [];
    let runs: RunsHere = null;
    let keeps: string | null = null;
    const place = createTabsPlace({
      ...{ clock, store, line: createLine(channel) },
      locks: { locks: locks.of(tab), none: undefined, refused: REFUSING }[has],
      here: () => runs,
      stop: () => did.push('stopped'),
      giveUp: () => {
        if (keeps === null) runs = null;
        return Promise.resolve(keeps);
      },
      yieldHere: () => {
        did.push('yielded');
        runs = null;
      },
      goOn: (session) => void begin(session),
      prepare: () => did.push('tapped'),
      changed: (gone) => did.push(`changed ${String(gone)}`),
    });
    async function begin(session: string, mayGoOnHere = true) {
      if (!(await place.claim())) return;
      runs = { session, routine: 'hinge', mayGoOnHere };
      store.patch({ where: 'run' });
    }
    return {
      ...{ place, store, did, begin },
      runs: () => runs?.session ?? null,
      elsewhere: () => store.state().elsewhere,
      keep: (why: string) => {
        keeps = why;
      },
      end: () => {
        runs = null;
        place.release();
      },
      freeze: (isFrozen: boolean) => {
        end.isFrozen = isFrozen;
      },
      kill: () => {
        end.isFrozen = true;
        locks.kill(tab);
      },
    };
  }
  return { clock, openTab };
}
