/** Sound of the bench comes at this rate. */
const CLIP_RATE = 16000;
/** Between the order to play and the sound. */
const AHEAD_SECONDS = 0.15;

const DeviceContext = AudioContext;

/**
 * A microphone that hears what is played: `getUserMedia` gives its sound, and the way from there
 * on is the app's own. It stands where the device's does, at the given rate.
 */
export class PlayedMicrophone {
  private readonly context: AudioContext;
  private readonly out: MediaStreamAudioDestinationNode;
  /** Page time less sound time, milliseconds, at the earliest that it was seen. */
  private offset = Infinity;

  constructor(sampleRate: number | null) {
    const rate = sampleRate === null ? {} : { sampleRate };
    this.context = new DeviceContext({ latencyHint: 'interactive', ...rate });
    this.out = this.context.createMediaStreamDestination();
    const { stream } = this.out;
    navigator.mediaDevices.getUserMedia = () => Promise.resolve(stream.clone());
    // What the app opens then runs at the rate of such a device.
    window.AudioContext = class extends DeviceContext {
      constructor(options?: AudioContextOptions) {
        super({ ...options, ...rate });
      }
    };
    const watch = () => {
      if (this.context.state === 'closed') return;
      const { currentTime } = this.context;
      if (currentTime > 0)
        this.offset = Math.min(this.offset, performance.now() - 1000 * currentTime);
      setTimeout(watch, 5);
    };
    watch();
  }

  /** It is taken away. */
  close(): void {
    void this.context.close();
  }

  /** Once the sound runs: its rate. */
  async settled(): Promise<number> {
    await this.context.resume();
    return this.context.sampleRate;
  }

  /**
   * Plays a sound to its end.
   * @returns the page's time at which `endSeconds` of it had been played, milliseconds.
   */
  async play(sound: Float32Array, endSeconds: number): Promise<number> {
    const buffer = this.context.createBuffer(1, sound.length, CLIP_RATE);
    buffer.getChannelData(0).set(sound);
    const source = this.context.createBufferSource();
    source.buffer = buffer;
    source.connect(this.out);
    const begins = this.context.currentTime + AHEAD_SECONDS;
    source.start(begins);
    await new Promise((resolve) => (source.onended = resolve));
    source.disconnect();
    return 1000 * (begins + endSeconds) + this.offset;
  }
}
