import type { Clock, EarTrouble } from '../../src/ports';
import type { FromEarWorker, ToEarWorker } from '../../src/ear/messages';
import type { Microphone, MicrophoneFate } from '../../src/ear/microphone';
import {
  createWorkerEar,
  type DeviceEarOptions,
  type EarWorkerHandle,
} from '../../src/ear/workerEar';
import { lexiconOf, phrases } from './grammars';

/** A clock that stands still until it is moved. */
export class StandingClock implements Clock {
  private time = 0;
  private timers: { at: number; run: () => void }[] = [];

  now = () => this.time;
  setTimeout = (run: () => void, milliseconds: number): unknown => {
    const timer = { at: this.time + milliseconds, run };
    this.timers.push(timer);
    return timer;
  };
  clearTimeout = (id: unknown) => {
    this.timers = this.timers.filter((timer) => timer !== id);
  };
  advance(milliseconds: number): void {
    this.time += milliseconds;
    const due = this.timers.filter(({ at }) => at <= this.time);
    this.timers = this.timers.filter(({ at }) => at > this.time);
    for (const { run } of due) run();
  }
}

/** A worker that says whatever the test makes it say. */
export class PuppetWorker implements EarWorkerHandle {
  onmessage: EarWorkerHandle['onmessage'] = null;
  onerror: EarWorkerHandle['onerror'] = null;
  terminated = false;
  readonly sent: ToEarWorker[] = [];

  postMessage(message: ToEarWorker): void {
    this.sent.push(message);
  }
  terminate(): void {
    this.terminated = true;
  }
  tell(message: FromEarWorker): void {
    this.onmessage?.({ data: message } as MessageEvent<FromEarWorker>);
  }
  crash(): void {
    this.onerror?.({ message: 'out of memory' } as ErrorEvent);
  }
  get attended(): string | undefined {
    return this.sent.filter((message) => message.type === 'attend').at(-1)?.prompt;
  }
}

export const SAID = ['knees forward', 'stop', 'pass', 'yes', 'no'];
const ANY = phrases('confirm', SAID);

/** A device ear whose worker, microphone and clock are in the test's hand. */
export function puppetEar(more: Partial<DeviceEarOptions> = {}) {
  const clock = new StandingClock();
  const workers: PuppetWorker[] = [];
  const microphones: (MicrophoneFate & { closed: boolean; ports: number })[] = [];
  let sampleRate = 48000;
  let cancelsEcho = true;
  let inputs = ['built-in'];
  let devicesChanged: (() => void) | null = null;
  let answer: EarTrouble | 'opens' | 'never' = 'opens';
  const ear = createWorkerEar(
    {
      grammarFor: (prompt) => ({ ...ANY, prompt }),
      lexicon: lexiconOf(ANY),
      assetsBase: 'https://sayso.test/',
      clock,
      ...more,
    },
    {
      startWorker: () => {
        const worker = new PuppetWorker();
        workers.push(worker);
        return worker;
      },
      openMicrophone: (fate): Promise<Microphone | EarTrouble> => {
        if (answer === 'never') return new Promise(() => undefined);
        if (answer !== 'opens') return Promise.resolve(answer);
        const opened = { ...fate, closed: false, ports: 0 };
        microphones.push(opened);
        return Promise.resolve({
          sampleRate,
          cancelsEcho,
          sendTo: () => {
            opened.ports += 1;
          },
          close: () => {
            opened.closed = true;
          },
        });
      },
      inputs: () => Promise.resolve(inputs),
      onDevices: (run) => {
        devicesChanged = run;
        return () => {
          devicesChanged = null;
        };
      },
    },
  );
  return {
    ear,
    clock,
    workers,
    microphones,
    worker: () => workers.at(-1)!,
    microphoneAnswers: (how: EarTrouble | 'opens' | 'never') => {
      answer = how;
    },
    cannotCancelEcho: () => {
      cancelsEcho = false;
    },
    /** These microphones are there now; what is opened next has this rate. */
    devices: async (there: string[], rate = 48000) => {
      inputs = there;
      sampleRate = rate;
      devicesChanged?.();
      clock.advance(500);
      await new Promise<void>((resolve) => setImmediate(resolve));
    },
  };
}
