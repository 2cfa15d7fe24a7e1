/** Hands a text to the browser as a file for the downloads of this device. */
export function download(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken it by then, however slow the device is.
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MILLISECONDS);
}

const KEPT_MILLISECONDS = 60_000;
