import { afterEach, describe, expect, test, vi } from 'vitest';
import { openMicrophone } from '../../src/ear/microphone';
import { puppetEar } from './doubles';

/** A browser that opens a microphone and says this of its echo cancelling. */
function browserSaying(settings: Record<string, unknown>) {
  const track = Object.assign(new EventTarget(), {
    muted: false,
    getSettings: () => settings,
    stop: () => undefined,
  });
  const stream = { getTracks: () => [track] };
  vi.stubGlobal('navigator', { mediaDevices: { getUserMedia: () => Promise.resolve(stream) } });
  const sound = {
    sampleRate: 48000,
    state: 'running',
    onstatechange: (() => undefined) as (() => void) | null,
    resumed: 0,
    audioWorklet: { addModule: () => Promise.resolve() },
    createMediaStreamSource: () => ({ connect: () => undefined }),
    resume() {
      this.resumed += 1;
      return Promise.reject(new DOMException('in a call', 'InvalidStateError'));
    },
    close: () => Promise.resolve(),
  };
  vi.stubGlobal('AudioContext', function opens() {
    return sound;
  });
  vi.stubGlobal('AudioWorkletNode', function gathers() {});
  return { track, sound };
}
const NEVER = { ended: () => undefined, muted: () => undefined };
afterEach(() => vi.unstubAllGlobals());

describe('a microphone tells whether words over our own sound are heard', () => {
  test.each([
    [{ echoCancellation: true }, true],
    [{ echoCancellation: 'all' }, true],
    [{ echoCancellation: 'remote-only' }, false],
    [{ echoCancellation: false }, false],
    [{}, false],
  ])('where the browser says %j: %s', async (settings, hears) => {
    browserSaying(settings);
    expect(await openMicrophone(NEVER)).toMatchObject({ cancelsEcho: hears });
  });

  test('and the ear hands it on, for each microphone that is opened', async () => {
    const told: boolean[] = [];
    const { ear, devices, cannotCancelEcho } = puppetEar({
      onMicrophone: (hearsOverSound) => told.push(hearsOverSound),
    });
    await ear.open();
    cannotCancelEcho();
    await devices(['built-in', 'headset']);
    expect(told).toEqual([true, false]);
  });
});

describe('a microphone tells that it hears nothing for now', () => {
  const opened = async () => {
    const browser = browserSaying({});
    const told: boolean[] = [];
    const microphone = await openMicrophone({ ...NEVER, muted: (is) => told.push(is) });
    if (typeof microphone === 'string') throw new Error(microphone);
    return { ...browser, told, microphone };
  };

  test('where the system mutes it, as in a call', async () => {
    const { track, told } = await opened();
    track.muted = true;
    track.dispatchEvent(new Event('mute'));
    track.muted = false;
    track.dispatchEvent(new Event('unmute'));
    expect(told).toEqual([false, true, false]);
  });

  test('where its sound is frozen: it is asked back, and told meanwhile', async () => {
    const { sound, told } = await opened();
    const asked = sound.resumed;
    sound.state = 'interrupted';
    sound.onstatechange?.();
    expect(sound.resumed).toBe(asked + 1);
    sound.state = 'running';
    sound.onstatechange?.();
    expect(told).toEqual([false, true, false]);
  });

  test('and nothing more once it is closed', async () => {
    const { track, sound, told, microphone } = await opened();
    microphone.close();
    track.muted = true;
    track.dispatchEvent(new Event('mute'));
    sound.onstatechange?.();
    expect(told).toEqual([false]);
  });
});
