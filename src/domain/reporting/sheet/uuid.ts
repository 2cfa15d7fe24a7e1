/** FNV-1a of 32 bits (Fowler, Noll, Vo), begun with another seed for each part. */
function hash(text: string, seed: number): number {
  let value = (0x811c9dc5 ^ seed) >>> 0;
  for (let at = 0; at < text.length; at += 1) {
    value = Math.imul(value ^ text.charCodeAt(at), 0x01000193) >>> 0;
    // Once more over the upper bits, or short texts would differ in few of them.
    value = (value ^ (value >>> 15)) >>> 0;
  }
  return value;
}

/**
 * A UUID that names this text, the same each time: version 8 of RFC 9562, made by a hash of our
 * own. For names inside one file; it keeps no secret.
 */
export function uuidOf(text: string): string {
  const hex = [1, 2, 3, 4].map((seed) =>
    hash(`${seed} ${text}`, Math.imul(seed, 0x9e3779b1)).toString(16).padStart(8, '0'),
  );
  const all = hex.join('');
  const variant = ((parseInt(all.charAt(16), 16) & 0x3) | 0x8).toString(16);
  return [
    all.slice(0, 8),
    all.slice(8, 12),
    `8${all.slice(13, 16)}`,
    `${variant}${all.slice(17, 20)}`,
    all.slice(20, 32),
  ].join('-');
}
