const DEVICE_KEY = 'sayso-device';

/** A random name without a separator of entry ids; works on pages that are not secure too. */
export const randomName = (): string =>
  [...crypto.getRandomValues(new Uint8Array(8))]
    .map((byte) => byte.toString(16).padStart(2, '0'))
    .join('');

/** The name of this device, kept where storage allows it. */
export function deviceName(): string {
  try {
    const known = localStorage.getItem(DEVICE_KEY);
    if (known !== null) return known;
    const made = randomName();
    localStorage.setItem(DEVICE_KEY, made);
    return made;
  } catch {
    return randomName();
  }
}
