import type { Handed } from '../../browser/handMicrophone';

/** A line that sounds or has sounded; seconds of the sound's own clock. */
interface Line {
  startedSeconds: number;
  lastsSeconds: number;
  /** When it was silenced before its end, fade included. */
  silencedSeconds: number | null;
}

/** What is said over a line. */
export interface Over {
  samples: number[];
  sampleRate: number;
  /** Where in the samples the word ends. */
  endSeconds: number;
  /** From the start of the line on. */
  afterSeconds: number;
}

/** In the page. */
export interface Stopping extends Handed {
  lines: Line[];
  /**
   * Waits for the next long line and stops it, by voice or (null) by the button. Milliseconds from
   * the end of the word, or from the touch, to silence; null where the line was not silenced.
   */
  stopNext(over: Over | null): Promise<number | null>;
}

/** So long must a line last that a stop over it can be late and still be seen. */
const LONG_SECONDS = 3.5;
const TOUCHED_AFTER_SECONDS = 0.8;
const WAITS_SECONDS = 60;

/** In the page, before anything of it, with `inPageSizes`: notes its lines, and stops one. */
export function stopLines(sizes: typeof inPageSizes): void {
  const page = window as unknown as Stopping;
  page.lines = [];
  const sounding = new WeakMap<AudioScheduledSourceNode, Line>();
  const { start } = AudioBufferSourceNode.prototype;
  const { stop } = AudioScheduledSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (when = 0, ...rest) {
    start.call(this, when, ...rest);
    const lastsSeconds = this.buffer?.duration ?? 0;
    if (this.loop || lastsSeconds < sizes.longSeconds || this.context !== page.Howler.ctx) return;
    const line = { startedSeconds: when, lastsSeconds, silencedSeconds: null };
    page.lines.push(line);
    sounding.set(this, line);
  };
  AudioBufferSourceNode.prototype.stop = function (when = 0) {
    stop.call(this, when);
    const line = sounding.get(this);
    if (line) line.silencedSeconds = Math.max(when, this.context.currentTime);
  };
  const now = () => page.Howler.ctx.currentTime;
  const until = async <Found>(look: () => Found | null, seconds: number) => {
    const latest = performance.now() + seconds * 1000;
    for (;;) {
      const found = look();
      if (found !== null || performance.now() > latest) return found;
      await new Promise((next) => setTimeout(next, 5));
    }
  };
  page.stopNext = async (over) => {
    const known = page.lines.length;
    const line = await until(() => page.lines[known] ?? null, sizes.waitsSeconds);
    if (line === null) throw new Error('No long line was said.');
    const silenced = (fromSeconds: number) =>
      until(() => line.silencedSeconds, line.startedSeconds + line.lastsSeconds - now()).then(
        (at) => (at === null ? null : (at - fromSeconds) * 1000),
      );
    if (over === null) {
      const at = line.startedSeconds + sizes.touchedAfterSeconds;
      await until(() => (now() >= at ? at : null), sizes.waitsSeconds);
      const touched = now();
      document.querySelector<HTMLButtonElement>('button.stop')?.click();
      return silenced(touched);
    }
    const begins = line.startedSeconds + over.afterSeconds;
    void page.speak(over.samples, over.sampleRate, begins);
    return silenced(begins + over.endSeconds);
  };
}

export const inPageSizes = {
  longSeconds: LONG_SECONDS,
  touchedAfterSeconds: TOUCHED_AFTER_SECONDS,
  waitsSeconds: WAITS_SECONDS,
};

/** In the page, before anything of it: its ear waits for the silence after every word. */
export function waitForSilence(): void {
  const { postMessage } = Worker.prototype;
  Worker.prototype.postMessage = function (this: Worker, message: { type?: string }, ...rest) {
    const sent = message.type === 'start' ? { ...message, urgent: [] } : message;
    Reflect.apply(postMessage, this, [sent, ...rest]);
  };
}
