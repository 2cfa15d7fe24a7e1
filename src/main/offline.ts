import { keepAll, type BuiltFiles, type Keeping } from '../offline/keeping';
import type { Asked } from '../offline/serviceWorker';
import type { OfflineState } from '../screens/seat';

/** The page's side of working without network. */
export interface Offline {
  /** Puts the service worker in its place and has everything kept. Not before the ear hears. */
  start(): void;
  /** The new version that waits takes over, and the page loads anew; not where another is open. */
  takeNewVersion(): void;
}

/**
 * Keeps everything that a session needs, tells how far that is, and tells of a new version. It
 * never loads the page anew by itself.
 */
export function createOffline({
  base,
  tell,
  isFree,
}: {
  /** Address of the page's folder, ending in a slash. */
  base: string;
  tell: (change: Partial<OfflineState>) => void;
  /** Whether no session runs in this page. */
  isFree: () => boolean;
}): Offline {
  let registration: ServiceWorkerRegistration | null = null;

  const start = async () => {
    const workers = (navigator as Partial<Navigator>).serviceWorker;
    if (workers === undefined) return tell({ state: 'never' });
    try {
      await workers.register(new URL('sw.js', base), { scope: base, updateViaCache: 'none' });
    } catch {
      // A certificate that was passed by hand, or a browser that keeps nothing.
    }
    registration = (await workers.getRegistration(base)) ?? null;
    if (registration === null) return tell({ state: 'never' });
    watch(registration);
    const { active } = await workers.ready;
    if (active === null) return tell({ state: 'never' });
    const files = await ask<BuiltFiles>(active, 'files');
    await keep(files);
    window.addEventListener('online', () => void keep(files));
  };

  const keep = async (files: BuiltFiles) => {
    try {
      const isAll = await keepAll(base, files, ({ path, keptBytes, bytes }) =>
        tell({ state: 'fetching', what: whatOf(path), progress: keptBytes / bytes }),
      );
      tell({ state: isAll ? 'ready' : 'full' });
    } catch {
      // Missing, damaged, or the network went: the next load, or the network's return, tries again.
      tell({ state: 'incomplete' });
    }
  };

  const watch = (known: ServiceWorkerRegistration) => {
    const look = () => {
      if (known.waiting !== null) tell({ newVersion: 'waiting' });
    };
    known.addEventListener('updatefound', () =>
      known.installing?.addEventListener('statechange', look),
    );
    look();
    // A page may lie open for days.
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible' && isFree()) known.update().catch(() => undefined);
    });
  };

  const takeNewVersion = async () => {
    const waiting = registration?.waiting ?? null;
    if (waiting === null || !isFree()) return;
    const refused = new AbortController();
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), {
      signal: refused.signal,
    });
    if (await ask<boolean>(waiting, 'take-over')) return;
    refused.abort();
    tell({ newVersion: 'other-pages' });
  };

  return { start: () => void start(), takeNewVersion: () => void takeNewVersion() };
}

const whatOf = (path: Keeping['path']): OfflineState['what'] => {
  if (path.startsWith('ear/')) return 'recogniser';
  return path.startsWith('voice/') ? 'voice' : 'page';
};

const ask = <T>(worker: ServiceWorker, asked: Asked) =>
  new Promise<T>((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }: MessageEvent<T>) => {
      port1.close();
      resolve(data);
    };
    worker.postMessage(asked, [port2]);
  });
