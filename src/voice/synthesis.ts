import type { LineMade, VoiceWorker } from './messages';
import type { Sound } from '../sounding/playing';
import { spawnVoiceWorker } from './spawn';
import type { ShippedVoice } from './voices';

/** Lines kept; a few dozen are the cues of one step and the words said between. */
const KEPT_LINES = 48;

export interface SynthesisOptions {
  /** The page's folder of assets, absolute or relative to the page, ending in `/`. */
  assetsBase: string;
  /** Starts the worker; the real one by default. */
  spawn?: () => VoiceWorker;
}

/** Makes the sound of lines in a worker, in the page. */
export interface Synthesis {
  /**
   * The sound of a line, from the last few dozen where it is among them. `now` lines are made
   * before `later` ones. Rejects where the voice file cannot be loaded or the worker is gone;
   * asking again tries anew.
   */
  make(text: string, voice: ShippedVoice, when: 'now' | 'later'): Promise<Sound>;
  /** Ends the worker; lines not made by then are rejected. */
  close(): void;
}

interface Job {
  key: string;
  text: string;
  voice: ShippedVoice;
  resolve(sound: Sound): void;
  reject(error: Error): void;
}

export const createSynthesis = ({
  assetsBase,
  spawn = spawnVoiceWorker,
}: SynthesisOptions): Synthesis => {
  const page = typeof document === 'undefined' ? undefined : document.baseURI;
  const base = new URL(assetsBase, page).href;
  /** In the order of use, the latest last. */
  const lines = new Map<string, Promise<Sound>>();
  let queue: Job[] = [];
  let working: { job: Job; id: number } | null = null;
  let worker: VoiceWorker | null = null;
  let lastId = 0;

  const drop = (reason: string) => {
    worker?.terminate();
    worker = null;
    const lost = working === null ? queue : [working.job, ...queue];
    queue = [];
    working = null;
    for (const { reject } of lost) reject(new Error(reason));
  };

  const answered = (made: LineMade) => {
    if (working?.id !== made.id) return;
    const { job } = working;
    working = null;
    if ('sound' in made) {
      job.resolve(made.sound);
      next();
    } else {
      job.reject(new Error(made.error));
      drop(made.error);
    }
  };

  const started = (): VoiceWorker => {
    const fresh = spawn();
    fresh.onmessage = ({ data }) => answered(data);
    fresh.onerror = ({ message }) => drop(`The voice stopped: ${message}`);
    return fresh;
  };

  /** One line at a time, so that an urgent one never waits behind many. */
  const next = () => {
    if (working !== null) return;
    const job = queue.shift();
    if (job === undefined) return;
    lastId += 1;
    working = { job, id: lastId };
    try {
      worker ??= started();
      worker.postMessage({ id: lastId, assetsBase: base, text: job.text, voice: job.voice });
    } catch (error) {
      drop(`The voice could not be started: ${String(error)}`);
    }
  };

  const keep = (key: string, line: Promise<Sound>) => {
    lines.delete(key);
    lines.set(key, line);
    const [oldest] = lines.keys();
    if (lines.size > KEPT_LINES && oldest !== undefined) lines.delete(oldest);
  };

  return {
    make(text, voice, when) {
      const key = JSON.stringify([text, voice.name, voice.stretch]);
      const known = lines.get(key);
      if (known !== undefined) {
        keep(key, known);
        if (when === 'now') {
          queue.sort((a, b) => Number(b.key === key) - Number(a.key === key));
        }
        return known;
      }
      const line = new Promise<Sound>((resolve, reject) => {
        const job = { key, text, voice, resolve, reject };
        if (when === 'now') queue.unshift(job);
        else queue.push(job);
      });
      keep(key, line);
      line.catch(() => {
        if (lines.get(key) === line) lines.delete(key);
      });
      next();
      return line;
    },
    close: () => drop('The voice was closed.'),
  };
};
