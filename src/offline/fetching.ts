/** A file of the page as it was when the page was built. */
export interface BuiltFile {
  bytes: number;
  /** Hexadecimal. */
  sha256: string;
}

/** A file did not arrive as what it should be. */
export class FileMissingError extends Error {
  override name = 'FileMissingError';
}

/** It arrived, twice, but as something else. */
export class FileDamagedError extends FileMissingError {
  override name = 'FileDamagedError';
}

export interface FetchingOptions {
  /** Called with the bytes of each piece; negative where pieces have to come again. */
  arrived?: ((bytes: number) => void) | undefined;
  /** The browser's `fetch`; another in tests. */
  fetch?: typeof fetch | undefined;
}

/** A file that arrived, as it was sent. */
export interface Fetched {
  bytes: Uint8Array<ArrayBuffer>;
  headers: Headers;
}

/**
 * A file of the page, whole and unharmed: it is held against its hash, and fetched past the
 * browser's cache once more where it is damaged.
 * @throws FileMissingError where it cannot be had; FileDamagedError where it came twice as
 *   something else.
 */
export async function fetchFile(
  address: string,
  file: BuiltFile,
  options: FetchingOptions = {},
): Promise<Fetched> {
  for (const cache of [firstCacheFor(file), 'reload'] as const) {
    const { bytes, headers } = await fetchOnce(address, file, cache, options);
    if (bytes.length === file.bytes && (await hasHash(bytes, file.sha256)))
      return { bytes, headers };
    options.arrived?.(-bytes.length);
  }
  throw new FileDamagedError(`${address}: arrived damaged, twice.`);
}

/** Models, runtime and voice would lie in the browser's own cache a second time. */
const BIG_BYTES = 1_000_000;
const firstCacheFor = ({ bytes }: BuiltFile) => (bytes > BIG_BYTES ? 'no-store' : 'default');

async function fetchOnce(
  address: string,
  { bytes }: BuiltFile,
  cache: RequestCache,
  { arrived, fetch: get = fetch }: FetchingOptions,
): Promise<Fetched> {
  const answer = await get(address, { cache }).catch((problem: unknown) => {
    throw new FileMissingError(`${address}: ${String(problem)}`);
  });
  const { headers } = answer;
  // A server that answers every address with its page has not got the file either.
  const kind = headers.get('content-type') ?? '';
  const isOtherPage = kind.includes('html') && !address.endsWith('.html');
  if (!answer.ok || answer.body === null || isOtherPage)
    throw new FileMissingError(`${address}: answered ${answer.status} ${kind}`);
  const whole = new Uint8Array(bytes);
  let at = 0;
  const reader = answer.body.getReader();
  try {
    for (let piece = await reader.read(); !piece.done; piece = await reader.read()) {
      const fits = piece.value.subarray(0, bytes - at);
      whole.set(fits, at);
      at += fits.length;
      arrived?.(fits.length);
      // Longer than it should be: damaged.
      if (fits.length < piece.value.length) return { bytes: whole.subarray(0, 0), headers };
    }
  } catch (problem) {
    throw new FileMissingError(`${address}: broke off after ${at} bytes (${String(problem)})`);
  }
  return { bytes: whole.subarray(0, at), headers };
}

/** Without a secure page there is no hashing; nor is there a microphone. */
export async function hasHash(bytes: Uint8Array<ArrayBuffer>, sha256: string): Promise<boolean> {
  const { subtle } = crypto as Partial<Crypto>;
  if (subtle === undefined) return true;
  const hash = new Uint8Array(await subtle.digest('SHA-256', bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join('') === sha256;
}

/** The same bytes, unpacked where they are packed: such files begin with the two bytes of gzip. */
export async function unpacked(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> {
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return bytes;
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}
