/**
 * Runs on the audio thread: gathers the microphone's sound and hands it to the worker, past the
 * page. Resampling is left to the worker, which may take its time.
 */
declare abstract class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

/** Samples a message: about 21 ms at 48 kHz. */
const PIECE = 1024;

class Gathering extends AudioWorkletProcessor {
  private out: MessagePort | null = null;
  private piece = new Float32Array(PIECE);
  private filled = 0;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<MessagePort>) => {
      this.out = data;
    };
  }

  process([channels]: Float32Array[][]): boolean {
    const sound = channels?.[0];
    if (sound === undefined || this.out === null) return true;
    for (const sample of sound) {
      this.piece[this.filled] = sample;
      this.filled += 1;
      if (this.filled < PIECE) continue;
      this.out.postMessage(this.piece, [this.piece.buffer]);
      this.piece = new Float32Array(PIECE);
      this.filled = 0;
    }
    return true;
  }
}

registerProcessor('gathering', Gathering);
