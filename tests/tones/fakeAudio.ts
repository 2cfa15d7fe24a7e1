/** A browser's audio as Howler needs it: what sounds can be seen, and the system can suspend it. */
export const fakeAudio = () => {
  const sounding = new Set<object>();
  const begun: number[] = [];
  const contexts: Context[] = [];
  const world = { allowed: false, sounding, begun, contexts };

  class Context {
    state = 'suspended';
    sampleRate = 48000;
    currentTime = 0;
    destination = {};
    suspensions = 0;
    resumes = 0;
    constructor() {
      contexts.push(this);
    }
    resume() {
      this.resumes += 1;
      if (!world.allowed) return new Promise<void>(() => undefined);
      this.state = 'running';
      return Promise.resolve();
    }
    suspend() {
      this.suspensions += 1;
      this.state = 'suspended';
      return Promise.resolve();
    }
    close() {
      this.state = 'closed';
    }
    createGain() {
      return { gain: { value: 1, setValueAtTime: () => undefined }, connect: () => undefined };
    }
    createBuffer() {
      return {};
    }
    createBufferSource() {
      const node = {
        buffer: null as { duration: number } | null,
        playbackRate: { setValueAtTime: () => undefined },
        connect: () => undefined,
        disconnect: () => undefined,
        start: () => {
          sounding.add(node);
          const seconds = node.buffer?.duration ?? 0;
          begun.push(seconds);
          setTimeout(() => sounding.delete(node), seconds * 1000);
        },
        stop: () => void sounding.delete(node),
      };
      return node;
    }
    decodeAudioData(file: ArrayBuffer, success: (buffer: object) => void) {
      const view = new DataView(file);
      success({ duration: (file.byteLength - 44) / 2 / view.getUint32(24, true) });
    }
  }
  class Player {
    oncanplaythrough = null;
    muted = false;
    canPlayType = () => 'probably';
    play = () => Promise.resolve();
    load = () => undefined;
    addEventListener = () => undefined;
  }
  Object.assign(globalThis, { AudioContext: Context, Audio: Player });
  return world;
};
