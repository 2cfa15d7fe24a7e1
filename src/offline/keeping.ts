import { fetchFile, hasHash, type BuiltFile, type FetchingOptions } from './fetching';

/** Files of the page by their path below its folder. */
export type BuiltFiles = Record<string, BuiltFile>;

/**
 * One shelf for each folder that a page is served from. A file lies on it under its address and
 * its hash, so that versions of the page share what they have in common, and neither ever gets
 * the other's.
 */
const shelfOf = (base: string) => caches.open(`sayso ${base}`);

const keyOf = (base: string, path: string, { sha256 }: BuiltFile) =>
  `${new URL(path, base).href}?sha256=${sha256}`;

/** Null where the browser keeps nothing: a page that is not secure, a browser that refuses. */
const shelfOrNull = async (base: string): Promise<Cache | null> => {
  try {
    return await shelfOf(base);
  } catch {
    return null;
  }
};

export interface WholeFile {
  /** As it was sent: packed where it is packed. */
  bytes: Uint8Array<ArrayBuffer>;
  /** It lies on the shelf, and comes without network from now on. */
  isKept: boolean;
}

/**
 * A file of the page from the shelf, else from the network and onto the shelf; asked for twice at
 * once, in the page and its workers, it is fetched once. One that was damaged on the shelf is
 * fetched again.
 * @param base address of the page's folder, ending in a slash
 * @throws FileMissingError, FileDamagedError
 */
export const wholeFile = (
  base: string,
  path: string,
  file: BuiltFile,
  options: FetchingOptions = {},
): Promise<WholeFile> =>
  alone(keyOf(base, path, file), async (key) => {
    const shelf = await shelfOrNull(base);
    const kept = await onShelf(shelf, key, file);
    if (kept !== null) {
      options.arrived?.(file.bytes);
      return { bytes: new Uint8Array(await kept.arrayBuffer()), isKept: true };
    }
    const { bytes, headers } = await fetchFile(new URL(path, base).href, file, options);
    return { bytes, isKept: await keep(shelf, key, bytes, headers) };
  });

/** A file as it lies on the shelf; null where it does not, or was damaged there. */
export const keptFile = async (
  base: string,
  path: string,
  file: BuiltFile,
): Promise<Response | null> => onShelf(await shelfOrNull(base), keyOf(base, path, file), file);

async function onShelf(
  shelf: Cache | null,
  key: string,
  file: BuiltFile,
): Promise<Response | null> {
  const kept = await shelf?.match(key);
  if (shelf === null || kept === undefined) return null;
  const bytes = new Uint8Array(await kept.clone().arrayBuffer());
  if (await hasHash(bytes, file.sha256)) return kept;
  await shelf.delete(key);
  return null;
}

/** With the headers that it came with, what they say of security too. */
async function keep(
  shelf: Cache | null,
  key: string,
  bytes: Uint8Array<ArrayBuffer>,
  sent: Headers,
): Promise<boolean> {
  if (shelf === null) return false;
  const headers = new Headers(sent);
  // They told how it travelled.
  for (const name of ['content-encoding', 'content-length', 'transfer-encoding', 'vary'])
    headers.delete(name);
  try {
    await shelf.put(key, new Response(bytes, { headers }));
    return true;
  } catch {
    // No room: it is used now, and fetched again the next time.
    return false;
  }
}

/** One at a time of a name, in all pages and workers of this origin. */
function alone<T>(name: string, run: (name: string) => Promise<T>): Promise<T> {
  const { locks } = navigator as Partial<Navigator>;
  return locks === undefined ? run(name) : locks.request(name, () => run(name));
}

/** How far the keeping is. */
export interface Keeping {
  /** The file that is fetched now. */
  path: string;
  keptBytes: number;
  bytes: number;
}

/**
 * Fetches what is not on the shelf yet, the small files first and the page itself last: it is
 * never there without the scripts it names. Where there is no room for all of it, what it brought
 * goes again: the record of sessions needs the room more.
 * @returns whether there was room
 * @throws FileMissingError, FileDamagedError where a file cannot be had
 */
export async function keepAll(
  base: string,
  files: BuiltFiles,
  told: (keeping: Keeping) => void = () => undefined,
): Promise<boolean> {
  const shelf = await shelfOrNull(base);
  if (shelf === null) return false;
  const there = new Set((await shelf.keys()).map(({ url }) => url));
  const missing = Object.entries(files)
    .filter(([path, file]) => !there.has(keyOf(base, path, file)))
    .sort(([a, one], [b, other]) => isPage(a) - isPage(b) || one.bytes - other.bytes);
  const sum = (some: BuiltFile[]) => some.reduce((total, { bytes }) => total + bytes, 0);
  const bytes = sum(Object.values(files));
  const brought: string[] = [];
  let keptBytes = bytes - sum(missing.map(([, file]) => file));
  for (const [path, file] of missing) {
    const arrived = (more: number) => {
      keptBytes += more;
      told({ path, keptBytes, bytes });
    };
    arrived(0);
    if (!(await wholeFile(base, path, file, { arrived })).isKept) {
      await Promise.all(brought.map((key) => shelf.delete(key)));
      return false;
    }
    brought.push(keyOf(base, path, file));
  }
  return true;
}

const isPage = (path: string) => Number(path.endsWith('.html'));

/**
 * Takes the largest file off the shelf, which without network is missed least: the voice, whose
 * words are shown as well. A browser does not tell how much room there is, so this waits until it
 * is wanted. False where there is none to take.
 */
export async function makeRoom(base: string): Promise<boolean> {
  const shelf = await shelfOf(base);
  const sizes = await Promise.all(
    (await shelf.keys()).map(async (key) => ({
      key,
      bytes: (await (await shelf.match(key))?.blob())?.size ?? 0,
    })),
  );
  const [largest] = sizes.sort((one, other) => other.bytes - one.bytes);
  return largest !== undefined && shelf.delete(largest.key);
}

/** Takes everything off the shelf but these. */
export async function dropOthers(base: string, files: BuiltFiles): Promise<void> {
  const shelf = await shelfOf(base);
  const wanted = new Set(Object.entries(files).map(([path, file]) => keyOf(base, path, file)));
  const others = (await shelf.keys()).filter(({ url }) => !wanted.has(url));
  await Promise.all(others.map((key) => shelf.delete(key)));
}
