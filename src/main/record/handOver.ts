/** The browser has taken it by then, however slow the device is. */
const KEPT_MILLISECONDS = 60_000;

/** Hands a saved record to the browser as a file for the downloads of this device. */
export function handOver(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MILLISECONDS);
}
