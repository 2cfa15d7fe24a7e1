/** Notes when a sound begins, in frames of the sound itself; its only message holds them all. */
declare abstract class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;
declare const currentFrame: number;
declare const sampleRate: number;

const LOUD = 0.05;
/** A beat has died away before the next: what is loud after so much silence is a new one. */
const QUIET_SECONDS = 0.25;

class Onsets extends AudioWorkletProcessor {
  private quietFrames = Infinity;
  private onsets: number[] = [];

  constructor() {
    super();
    this.port.onmessage = () => this.port.postMessage(this.onsets);
  }

  process([input]: Float32Array[][]): boolean {
    const samples = input?.[0];
    if (samples === undefined) this.quietFrames += 128;
    else
      samples.forEach((sample, at) => {
        if (Math.abs(sample) < LOUD) {
          this.quietFrames += 1;
          return;
        }
        if (this.quietFrames > QUIET_SECONDS * sampleRate)
          this.onsets.push((currentFrame + at) / sampleRate);
        this.quietFrames = 0;
      });
    return true;
  }
}

registerProcessor('onsets', Onsets);

// A module, so that its names are its own.
export {};
