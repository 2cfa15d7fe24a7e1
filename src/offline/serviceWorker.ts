import { dropOthers, keepAll, keptFile, type BuiltFiles } from './keeping';

/** Put in by the build (plugin.ts): everything that a session needs, and nothing else. */
declare const FILES: BuiltFiles;
declare const self: ServiceWorkerGlobalScope;

/** What a page asks of a service worker; it answers through the port that comes with it. */
export type Asked =
  /** What to keep. Answer: BuiltFiles. */
  | 'files'
  /** To take over now. Answer: whether it does; not while another page of Sayso is open. */
  | 'take-over';

const files = FILES;
const base = self.registration.scope;

/**
 * The first one takes its place at once, and the page fetches what is to be kept, when it is not
 * in its own way. A later one has everything before it may take over, so that a device that works
 * without network goes on doing so.
 */
self.addEventListener('install', (event) => {
  if (self.registration.active !== null) event.waitUntil(keepNewVersion());
});

async function keepNewVersion(): Promise<void> {
  if (!(await keepAll(base, files))) throw new Error('There is no room for a new version.');
}

/** No page of an older version is open now: its files may go. */
self.addEventListener('activate', (event) => {
  event.waitUntil(dropOthers(base, files).then(() => self.clients.claim()));
});

self.addEventListener('message', (event) => {
  const asked = event.data as Asked;
  const [answer] = event.ports;
  if (asked === 'files') answer?.postMessage(files);
  if (asked === 'take-over')
    event.waitUntil(
      isOnlyOnePage().then((may) => {
        answer?.postMessage(may);
        return may ? self.skipWaiting() : undefined;
      }),
    );
});

async function isOnlyOnePage(): Promise<boolean> {
  const pages = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  return pages.filter(({ url }) => url.startsWith(base)).length <= 1;
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const path = pathOf(request);
  const file = request.method === 'GET' && path !== null ? files[path] : undefined;
  if (path === null || file === undefined) return;
  event.respondWith(keptFile(base, path, file).then((kept) => kept ?? fetch(request)));
});

/** Below the page's folder; the folder itself is its page. */
function pathOf({ url, mode }: Request): string | null {
  const { origin, pathname } = new URL(url);
  const address = `${origin}${pathname}`;
  if (!address.startsWith(base)) return null;
  const path = address.slice(base.length);
  return path === '' && mode === 'navigate' ? 'index.html' : path;
}
