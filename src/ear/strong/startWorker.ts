/** Starts the worker of the strong ear; alone in its file so that Node never sees it. */
export const startWorker = (): Worker =>
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'strong ear' });
