import type { Sound } from '../sounding/playing';
import type { ShippedVoice } from './voices';

/** Asks the worker for one line. `wasm`: address of the synthesiser, loaded once. */
export interface LineWanted {
  id: number;
  wasm: string;
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
