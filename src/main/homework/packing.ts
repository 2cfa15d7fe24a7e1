/** A text as short letters for a link or a code, and back: raw DEFLATE (RFC 1951) in base64url. */
import { base64url, bytesOf } from './base64url';

/** Letters so packed are no text, or hold more than was asked for. */
export class NotPacked extends Error {
  readonly isTooLong: boolean;

  constructor(isTooLong: boolean) {
    super(isTooLong ? 'It unpacks to more than is read.' : 'It was not packed like this.');
    this.name = 'NotPacked';
    this.isTooLong = isTooLong;
  }
}

/** Bytes that are handed over at a time: even a thousand times as many still fit into a phone. */
const BYTES_AT_ONCE = 1024;

/** The letters for a text, in lines of no kind: A to Z, a to z, 0 to 9, - and _. */
export const pack = async (text: string): Promise<string> =>
  base64url(await through(new CompressionStream('deflate-raw'), new TextEncoder().encode(text)));

/**
 * The text of such letters, in at most `bytesMost` bytes of UTF-8. Rejects with NotPacked; no more
 * is unpacked than that, however much the letters would come to.
 */
export async function unpack(letters: string, bytesMost: number): Promise<string> {
  const bytes = bytesOf(letters);
  if (bytes === null) throw new NotPacked(false);
  const unpacked = await through(new DecompressionStream('deflate-raw'), bytes, bytesMost).catch(
    (error: unknown) => {
      throw error instanceof NotPacked ? error : new NotPacked(false);
    },
  );
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(unpacked);
  } catch {
    throw new NotPacked(false);
  }
}

async function through(
  stream: CompressionStream | DecompressionStream,
  bytes: Uint8Array<ArrayBuffer>,
  bytesMost = Infinity,
): Promise<Uint8Array<ArrayBuffer>> {
  const writer = stream.writable.getWriter();
  // What goes wrong is told by the reader.
  void feed(writer, bytes).catch(() => undefined);
  const reader = stream.readable.getReader();
  const pieces: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    pieces.push(value);
    length += value.length;
    if (length > bytesMost) {
      void reader.cancel().catch(() => undefined);
      throw new NotPacked(true);
    }
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** A little at a time, so that what comes out can be stopped in between. */
async function feed(
  writer: WritableStreamDefaultWriter<BufferSource>,
  bytes: Uint8Array<ArrayBuffer>,
): Promise<void> {
  for (let at = 0; at < bytes.length; at += BYTES_AT_ONCE) {
    await writer.write(bytes.subarray(at, at + BYTES_AT_ONCE));
  }
  await writer.close();
}
