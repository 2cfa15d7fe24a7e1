import type { VoiceWorker } from './messages';

/** Starts the worker in which the shipped voice is made. */
export const spawnVoiceWorker = (): VoiceWorker =>
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
