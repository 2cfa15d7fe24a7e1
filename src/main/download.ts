/** The browser has taken it by then, however slow the device is. */
const KEPT_MILLISECONDS = 60_000;

/** Hands a file to the browser for the downloads of this device; `type`: its MIME type. */
export function download(name: string, content: BlobPart, type = 'text/csv;charset=utf-8'): void {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MILLISECONDS);
}
