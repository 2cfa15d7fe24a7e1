/** Bytes that are turned at a time: more arguments than that are too many for a call. */
const BYTES_AT_ONCE = 0x8000;

/** Bytes as base64 (RFC 4648, 4). */
export function base64(bytes: Uint8Array): string {
  let letters = '';
  for (let at = 0; at < bytes.length; at += BYTES_AT_ONCE) {
    letters += String.fromCharCode(...bytes.subarray(at, at + BYTES_AT_ONCE));
  }
  return btoa(letters);
}

/** The bytes of a base64 text; null where it is none. */
export function bytesOf(text: string): Uint8Array<ArrayBuffer> | null {
  try {
    return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  } catch {
    return null;
  }
}
