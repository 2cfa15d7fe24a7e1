import type { LineMade, LineWanted, VoiceWorker } from '../../src/voice/messages';
import type { Output } from '../../src/sounding/playing';
import type { Sounding } from './rudeSynthesis';

const RATE = 16000;
const MAKES_IN_MS = 50;

export interface Trouble {
  /** The answer of the worker to every line. */
  error?: string;
  silent?: boolean;
  /** The worker breaks at its first line; a fresh one works. */
  breaksOnce?: boolean;
  cannotStart?: boolean;
}

/** A worker that makes 0.4 s of sound a word, and an audio context whose sound can be seen. */
export const soundRoom = (trouble: Trouble = {}) => {
  const texts: string[] = [];
  const made: string[] = [];
  let workers = 0;
  const spawn = (): VoiceWorker => {
    if (trouble.cannotStart) throw new Error('no workers here');
    workers += 1;
    let ended = false;
    const worker: VoiceWorker = {
      onmessage: null,
      onerror: null,
      terminate: () => (ended = true),
      postMessage({ id, text, voice }: LineWanted) {
        if (trouble.silent) return;
        setTimeout(() => {
          if (ended) return;
          if (trouble.breaksOnce && workers === 1) {
            worker.onerror?.({ message: 'out of memory' } as ErrorEvent);
            return;
          }
          made.push(text);
          const words = text.split(' ').filter(Boolean).length;
          const samples = new Float32Array(Math.round(words * 0.4 * RATE * voice.stretch));
          texts.push(text);
          if (samples.length > 0) samples[0] = texts.length - 1;
          const answer: LineMade =
            trouble.error === undefined
              ? { id, sound: { samples, sampleRate: RATE } }
              : { id, error: trouble.error };
          worker.onmessage?.({ data: answer } as MessageEvent<LineMade>);
        }, MAKES_IN_MS);
      },
    };
    return worker;
  };

  const playing = new Set<{ text: string; gain: Gain; seconds: number; stopAt: number }>();
  class Gain {
    ramp: { from: number; to: number; at: number; until: number } | null = null;
    readonly gain = {
      value: 1,
      setValueAtTime: (value: number, at: number) => {
        this.ramp = { from: value, to: value, at, until: at };
      },
      linearRampToValueAtTime: (to: number, until: number) => {
        if (this.ramp) this.ramp = { ...this.ramp, to, until };
      },
    };
    now(): number {
      if (this.ramp === null) return this.gain.value;
      const { from, to, at, until } = this.ramp;
      const share = until === at ? 1 : Math.min(1, (context.currentTime - at) / (until - at));
      return from + (to - from) * share;
    }
    connect = (to: unknown) => to;
    disconnect = () => undefined;
  }
  const context = {
    state: 'running',
    get currentTime() {
      return Date.now() / 1000;
    },
    createGain: () => new Gain(),
    createBuffer: (_: number, length: number, rate: number) => ({
      samples: new Float32Array(length),
      seconds: length / rate,
      copyToChannel(samples: Float32Array) {
        this.samples = new Float32Array(samples);
      },
    }),
    createBufferSource: () => {
      let line: { text: string; gain: Gain; seconds: number; stopAt: number };
      let timer: ReturnType<typeof setTimeout>;
      const source = {
        buffer: null as ReturnType<typeof context.createBuffer> | null,
        onended: null as (() => void) | null,
        gain: null as Gain | null,
        connect(gain: Gain) {
          source.gain = gain;
          return gain;
        },
        start() {
          const { samples, seconds } = source.buffer!;
          const text = texts[samples[0]!]!;
          line = { text, gain: source.gain!, seconds, stopAt: Infinity };
          playing.add(line);
          timer = setTimeout(finish, seconds * 1000);
        },
        stop(at: number) {
          clearTimeout(timer);
          timer = setTimeout(finish, Math.max(0, at * 1000 - Date.now()));
        },
      };
      const finish = () => {
        if (context.state !== 'running') return;
        playing.delete(line);
        source.onended?.();
      };
      return source;
    },
  };
  return {
    spawn,
    made,
    workers: () => workers,
    suspend: () => (context.state = 'suspended'),
    output: () => ({ context, destination: {} }) as unknown as Output,
    sounding: (): Sounding | null => {
      const audible = [...playing].filter(({ gain }) => gain.now() > 0.001);
      const [first] = audible;
      if (audible.length > 1) throw new Error('two lines sound at once');
      return first ? { text: first.text, volume: first.gain.now(), seconds: first.seconds } : null;
    },
  };
};
