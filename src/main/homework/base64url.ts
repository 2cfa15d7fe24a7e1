/** Bytes that are turned at a time: more arguments than that are too many for a call. */
const BYTES_AT_ONCE = 0x8000;

/** Bytes in the letters of base64url (RFC 4648, 5), which a link keeps as they are; not filled up. */
export function base64url(bytes: Uint8Array): string {
  let letters = '';
  for (let at = 0; at < bytes.length; at += BYTES_AT_ONCE) {
    letters += String.fromCharCode(...bytes.subarray(at, at + BYTES_AT_ONCE));
  }
  return btoa(letters).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
}

/** The bytes of a text in base64url; null where it is none. */
export function bytesOf(text: string): Uint8Array<ArrayBuffer> | null {
  if (!/^[\w-]*$/.test(text)) return null;
  try {
    const letters = atob(text.replace(/-/g, '+').replace(/_/g, '/'));
    return Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
  } catch {
    return null;
  }
}
