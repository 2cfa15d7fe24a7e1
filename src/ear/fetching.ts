/** A file of the ear as it was when the page was built. */
export interface EarFile {
  bytes: number;
  /** Hexadecimal. */
  sha256: string;
}

/** A model or the runtime did not arrive as what it should be. */
export class ModelMissingError extends Error {
  override name = 'ModelMissingError';
}

/** It arrived, twice, but as something else. */
export class ModelDamagedError extends ModelMissingError {
  override name = 'ModelDamagedError';
}

export interface FetchingOptions {
  /** Called with the bytes of each piece; negative where pieces have to come again. */
  arrived?: (bytes: number) => void;
  /** The browser's `fetch`; another in tests. */
  fetch?: typeof fetch;
}

/**
 * A file of the ear, whole and unharmed: it is held against its hash, fetched past the browser's
 * cache once more where it is damaged, and unpacked where it is packed (gzip).
 * @throws ModelMissingError where it cannot be had; ModelDamagedError where it came twice as
 *   something else.
 */
export async function fetchEarFile(
  address: string,
  file: EarFile,
  options: FetchingOptions = {},
): Promise<Uint8Array<ArrayBuffer>> {
  for (const cache of ['default', 'reload'] as const) {
    const whole = await fetchWhole(address, file, cache, options);
    if (whole.length === file.bytes && (await hasHash(whole, file.sha256))) return unpacked(whole);
    options.arrived?.(-whole.length);
  }
  throw new ModelDamagedError(`${address}: arrived damaged, twice.`);
}

async function fetchWhole(
  address: string,
  { bytes }: EarFile,
  cache: RequestCache,
  { arrived, fetch: get = fetch }: FetchingOptions,
): Promise<Uint8Array<ArrayBuffer>> {
  const answer = await get(address, { cache }).catch((problem: unknown) => {
    throw new ModelMissingError(`${address}: ${String(problem)}`);
  });
  const kind = answer.headers.get('content-type') ?? '';
  // A server that answers every address with its page is a missing model too.
  if (!answer.ok || answer.body === null || kind.includes('html'))
    throw new ModelMissingError(`${address}: answered ${answer.status} ${kind}`);
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
      if (fits.length < piece.value.length) return whole.subarray(0, 0);
    }
  } catch (problem) {
    throw new ModelMissingError(`${address}: broke off after ${at} bytes (${String(problem)})`);
  }
  return whole.subarray(0, at);
}

/** Without a secure page there is no hashing; nor is there a microphone. */
async function hasHash(bytes: Uint8Array<ArrayBuffer>, sha256: string): Promise<boolean> {
  const { subtle } = crypto as Partial<Crypto>;
  if (subtle === undefined) return true;
  const hash = new Uint8Array(await subtle.digest('SHA-256', bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join('') === sha256;
}

/** Packed files begin with the two bytes of gzip. */
async function unpacked(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> {
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return bytes;
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}
