import { Howl, Howler } from 'howler';
import { TONES, type ToneName, type Tones } from '../ports';
import { toneSamples } from './shapes';
import { waveAddress } from './wave';

const SAMPLE_RATE = 44100;
/** A browser that has not begun to sound by then wants another tap. */
const UNLOCK_WAIT_MS = 1000;

/** Tones that must be unlocked by a tap before the browser lets them sound. */
export interface HowlerTones extends Tones {
  /**
   * Call inside a tap or key handler. Resolves when sound really runs; rejects with an error to
   * show where the browser has no sound, or wants another tap (call it again then).
   */
  unlock(): Promise<void>;
  /**
   * Where other sound of the page joins in: its audio context and the master gain. Asks for
   * sound back where it is suspended. Throws where the browser has no sound.
   */
  output(): { context: AudioContext; destination: AudioNode };
}

const NO_SOUND = 'This browser plays no sound for the page: use a current browser.';

/**
 * The session's tones through Howler. While sound is suspended (before the tap, in a phone
 * call) a tone is left out, never played late: a late "listening" would be a lie.
 */
export const createHowlerTones = (): HowlerTones => {
  Howler.autoSuspend = false;
  // Howler's own unlocking replaces the audio context, and with it what others have connected.
  Howler.autoUnlock = false;
  const howls = new Map<ToneName, Howl>(
    TONES.map((name) => {
      const src = waveAddress(toneSamples(name, SAMPLE_RATE), SAMPLE_RATE);
      return [name, new Howl({ src, format: 'wav' })];
    }),
  );
  return {
    play(name) {
      // Howler believes that it runs after the system has suspended it; the context knows.
      if (!runs()) {
        void context()?.resume();
        return;
      }
      howls.get(name)?.play();
    },
    hush: () => howls.forEach((howl) => void howl.stop()),
    async unlock() {
      const sound = context();
      if (sound === null) throw new Error(NO_SOUND);
      await Promise.race([sound.resume(), waited(UNLOCK_WAIT_MS)]);
      if (!runs()) throw new Error('Sound is still off in this browser: tap once more.');
    },
    output() {
      const sound = context();
      if (sound === null) throw new Error(NO_SOUND);
      if (!runs()) void sound.resume();
      return { context: sound, destination: Howler.masterGain };
    },
  };
};

// Read anew each time: the type says it is always there, an old browser says otherwise.
const context = (): AudioContext | null => (Howler.ctx as AudioContext | undefined) ?? null;
const runs = () => context()?.state === 'running';
const waited = (milliseconds: number) =>
  new Promise<void>((resolve) => setTimeout(resolve, milliseconds));
