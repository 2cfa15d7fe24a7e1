import { afterEach, describe, expect, test, vi } from 'vitest';
import { openMicrophone } from '../../src/ear/microphone';
import { puppetEar } from './doubles';

/** A browser that opens a microphone and says this of its echo cancelling. */
function browserSaying(settings: Record<string, unknown>): void {
  const track = {
    getSettings: () => settings,
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
    stop: () => undefined,
  };
  const stream = { getTracks: () => [track] };
  vi.stubGlobal('navigator', { mediaDevices: { getUserMedia: () => Promise.resolve(stream) } });
  vi.stubGlobal(
    'AudioContext',
    class {
      sampleRate = 48000;
      state = 'running';
      audioWorklet = { addModule: () => Promise.resolve() };
      createMediaStreamSource = () => ({ connect: () => undefined });
      resume = () => Promise.resolve();
      close = () => Promise.resolve();
    },
  );
  vi.stubGlobal('AudioWorkletNode', function gathers() {});
}
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
    expect(await openMicrophone(() => undefined)).toMatchObject({ cancelsEcho: hears });
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
