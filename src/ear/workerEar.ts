import type { Grammar } from '../domain/hearing/grammar';
import type { SoundHeard } from '../domain/hearing/microphoneAdvice';
import type { PromptId } from '../domain/script';
import type { Cancel, Clock, Ear, EarTrouble, Hearing } from '../ports';
import type { CoachEar } from './coach/coachEar';
import { keepMicrophone, type Microphones } from './keepingMicrophone';
import type { HearsWell } from './levels';
import type { Lexicon } from './lexicon';
import type { FromEarWorker, ToEarWorker } from './messages';
import type { EarSize, WhySmall } from './sizes';
import { URGENT } from './urgent';

/** The part of a Worker that is used. */
export interface EarWorkerHandle {
  postMessage(message: ToEarWorker, transfer?: Transferable[]): void;
  onmessage: ((event: MessageEvent<FromEarWorker>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  terminate(): void;
}

export interface DeviceEarOptions {
  grammarFor: (prompt: PromptId) => Grammar;
  lexicon: Lexicon;
  /** Where the folder `ear/` lies, ending in a slash; an absolute address. */
  assetsBase: string;
  /** Told before the silence after them. Default: URGENT. */
  urgent?: string[];
  /** How much of the models has arrived, 0 to 1. */
  onProgress?: (fraction: number) => void;
  /** A microphone was opened, and whether words spoken over the sound of this page are heard in it. */
  onMicrophone?: (hearsOverSound: boolean) => void;
  /** For the wait before a crashed worker is started again. */
  clock: Clock;
}

export interface EarOutside extends Microphones {
  startWorker: () => EarWorkerHandle;
}

/** How loud it is, 0 to 1, whether replies come through, and what was heard, where that is told. */
type TellLevel = (level: number, hearsWell: HearsWell, sound?: SoundHeard) => void;

/** The ear on this device. Sound never leaves it. */
export interface DeviceEar extends Ear {
  /** Asks for the microphone, from a tap; null once it is open, else why not. */
  open(): Promise<EarTrouble | null>;
  /** About ten times a second while sound comes in. */
  onLevel(tell: TellLevel): Cancel;
  hearsWell(): HearsWell;
  /**
   * Which size of the ear hears, told each time it changes: the small one first. `why` says what
   * keeps the small one where it stays.
   */
  onSize(tell: (size: EarSize, why: WhySmall | null) => void): Cancel;
  /** Hears as this coach's from now on, by this lexicon; `grammarFor` is asked anew. */
  fit(coach: CoachEar, lexicon: Lexicon): void;
  /** The models are loaded; rejects where they are missing. */
  ready: Promise<void>;
  /** One spoken piece from elsewhere, as if the microphone had heard it with silence after it. */
  feed(samples: Float32Array, sampleRate: number): void;
  /** Gives back the microphone and the memory. */
  close(): void;
}

/** A crashed worker is started again after these waits, then no more. */
const RESTART_MILLISECONDS = [1000, 4000, 16000];

/** What another microphone mends. */
const OF_THE_MICROPHONE: EarTrouble[] = ['unplugged', 'denied', 'interrupted'];

/** The page's side of the ear: a worker that hears, a microphone that feeds it, and their faults. */
export function createWorkerEar(options: DeviceEarOptions, outside: EarOutside): DeviceEar {
  const { clock, lexicon, assetsBase, urgent = URGENT } = options;
  const listeners = new Set<(hearing: Hearing) => void>();
  const watchers = new Set<TellLevel>();
  const sizeWatchers = new Set<(size: EarSize, why: WhySmall | null) => void>();
  const grammars = new Map<PromptId, Grammar>();
  let sent = new Set<PromptId>();
  let fitting: Extract<ToEarWorker, { type: 'fit' }> | null = null;
  let attended: PromptId | null = null;
  let worker: EarWorkerHandle | null = null;
  let hearsWell: HearsWell = 'unknown';
  let trouble: EarTrouble | null = null;
  let restarts = 0;
  let restarting: unknown = null;
  let closed = false;
  let told = { utterance: 0, words: '' };
  let settleReady: { resolve: () => void; reject: (problem: Error) => void } | null = null;
  const ready = new Promise<void>((resolve, reject) => {
    settleReady = { resolve, reject };
  });
  // Whoever waits for it sees the rejection; nobody waiting is no fault.
  ready.catch(() => undefined);

  const tell = (hearing: Hearing) => {
    for (const listener of [...listeners]) listener(hearing);
  };
  const goDeaf = (why: EarTrouble) => {
    if (trouble === why) return;
    trouble = why;
    tell({ type: 'deaf', why });
  };
  const hearAgain = () => {
    if (trouble === null) return;
    trouble = null;
    tell({ type: 'hears-again' });
  };

  const start = () => {
    const started = outside.startWorker();
    worker = started;
    sent = new Set();
    told = { utterance: 0, words: '' };
    started.onmessage = ({ data }) => {
      // A worker that was given up may still talk.
      if (worker === started) take(data);
    };
    started.onerror = () => {
      if (worker === started) crash('worker-failed', 'The worker of the ear stopped.');
    };
    started.postMessage({ type: 'start', assetsBase, lexicon, urgent });
    if (fitting !== null) started.postMessage(fitting);
    if (attended !== null) attend(attended);
    plug();
  };

  const take = (message: FromEarWorker) => {
    switch (message.type) {
      case 'loading':
        return options.onProgress?.(message.fraction);
      case 'ready':
        settleReady?.resolve();
        if (trouble === 'worker-failed') hearAgain();
        return;
      case 'hears-with':
        for (const watch of [...sizeWatchers]) watch(message.size, message.why);
        return;
      case 'failed':
        return crash(message.why, message.detail);
      case 'heard':
        return hear(message.utterance, message.hearing);
      case 'level':
        hearsWell = message.report.hearsWell;
        for (const watch of [...watchers])
          watch(message.report.level, hearsWell, message.report.sound);
    }
  };

  /** One utterance may tell an urgent word and then more, but nothing twice. */
  const hear = (utterance: number, hearing: Hearing) => {
    if (utterance < told.utterance) return;
    if (utterance > told.utterance) told = { utterance, words: '' };
    if (hearing.type === 'words') {
      if (hearing.text === told.words) return;
      told.words = hearing.text;
      restarts = 0;
    }
    tell(hearing);
  };

  const crash = (why: EarTrouble, detail: string) => {
    worker?.terminate();
    worker = null;
    goDeaf(why);
    const wait = RESTART_MILLISECONDS[restarts];
    if (why === 'worker-failed' && wait !== undefined && !closed) {
      restarts += 1;
      restarting = clock.setTimeout(start, wait);
    } else settleReady?.reject(new Error(detail));
  };

  const attend = (prompt: PromptId) => {
    attended = prompt;
    let grammar = grammars.get(prompt);
    if (grammar === undefined) {
      grammar = options.grammarFor(prompt);
      grammars.set(prompt, grammar);
    }
    worker?.postMessage({ type: 'attend', prompt, grammar: sent.has(prompt) ? null : grammar });
    if (worker !== null) sent.add(prompt);
  };

  /** Joins the microphone to the worker; done again for a new worker, and for a new microphone. */
  const plug = () => {
    const microphone = kept.now();
    if (microphone === null || worker === null) return;
    const { port1, port2 } = new MessageChannel();
    microphone.sendTo(port1);
    const { sampleRate } = microphone;
    worker.postMessage({ type: 'microphone', port: port2, sampleRate }, [port2]);
  };
  const kept = keepMicrophone(outside, clock, {
    opened: ({ cancelsEcho }) => {
      options.onMicrophone?.(cancelsEcho);
      plug();
      if (trouble !== null && OF_THE_MICROPHONE.includes(trouble)) hearAgain();
    },
    lost: goDeaf,
    muted: (isMuted) => {
      if (isMuted && trouble === null) goDeaf('interrupted');
      if (!isMuted && trouble === 'interrupted') hearAgain();
    },
  });

  start();
  return {
    ready,
    open: kept.open,
    attend,
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    onLevel: (watch) => {
      watchers.add(watch);
      return () => watchers.delete(watch);
    },
    onSize: (watch) => {
      sizeWatchers.add(watch);
      return () => sizeWatchers.delete(watch);
    },
    hearsWell: () => hearsWell,
    fit: (coach, said) => {
      fitting = { type: 'fit', coach, lexicon: said };
      grammars.clear();
      sent.clear();
      worker?.postMessage(fitting);
      if (attended !== null) attend(attended);
    },
    feed: (samples, sampleRate) => worker?.postMessage({ type: 'sound', samples, sampleRate }),
    close: () => {
      closed = true;
      clock.clearTimeout(restarting);
      listeners.clear();
      watchers.clear();
      sizeWatchers.clear();
      kept.close();
      worker?.terminate();
      worker = null;
    },
  };
}
