/** Notes when a sound begins, in frames of the sound itself; its only message holds them all. */
import { OnsetFinder } from './onsetFinder';

declare abstract class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;
declare const sampleRate: number;

const SILENCE = new Float32Array(128);

class Onsets extends AudioWorkletProcessor {
  private readonly finder = new OnsetFinder(sampleRate);

  constructor() {
    super();
    this.port.onmessage = () => this.port.postMessage(this.finder.onsets);
  }

  process([input]: Float32Array[][]): boolean {
    this.finder.hear(input?.[0] ?? SILENCE);
    return true;
  }
}

registerProcessor('onsets', Onsets);
