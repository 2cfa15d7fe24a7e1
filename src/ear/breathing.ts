/** Lets in messages that have come meanwhile: one to itself comes after all that were sent before it. */
export function breathing(): () => Promise<void> {
  const { port1, port2 } = new MessageChannel();
  return () =>
    new Promise<void>((resolve) => {
      port1.onmessage = () => resolve();
      port2.postMessage(null);
    });
}
