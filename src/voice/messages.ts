import type { Sound } from '../sounding/playing';
import type { ShippedVoice } from './voices';

/** Asks the worker for one line. `assetsBase`: address of the page's folder, ending in a slash. */
export interface LineWanted {
  id: number;
  assetsBase: string;
  text: string;
  voice: ShippedVoice;
}

/** The worker's answer to the line of that id. */
export type LineMade = { id: number; sound: Sound } | { id: number; error: string };

/** The part of a Worker that is used, so that tests can stand in for it. */
export interface VoiceWorker {
  postMessage(wanted: LineWanted): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<LineMade>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}
