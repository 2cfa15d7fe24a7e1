import type { Beats, Clock } from '../ports';
import { playSound, type Output, type Sound } from '../sounding/playing';
import { perceivedBeatSeconds } from './perceivedBeat';
import { toneSamples } from './shapes';
import { SoundClock } from './soundClock';

/** A count, and how long after its start it is felt to fall. */
interface Count extends Sound {
  fallsAfterSeconds: number;
}

export interface PlacedBeatsOptions {
  /** Makes the sound of a count in the voice that counts; rejects where it cannot. */
  make: (text: string) => Promise<Sound>;
  /** Asked for each beat, since a context may be replaced; throws where there is no sound. */
  output: () => Output;
  clock: Clock;
  /** Amplitude of the counts, 0 to 1, at present. */
  volume: () => number;
}

const SAMPLES_A_SECOND = 44100;
/** The sound's clock is read this often while beats may come, and for so long after the last. */
const READ_EVERY_MS = 25;
const READ_ON_MS = 3000;
/** A page that was frozen leaves out what it missed: a late count is a wrong one. */
const TOO_LATE_MS = 250;

/**
 * Counts and beats placed ahead on the clock of the sound itself. While sound is suspended (before
 * the tap, in a phone call) they are left out.
 */
export const createPlacedBeats = ({ make, output, clock, volume }: PlacedBeatsOptions): Beats => {
  const tick = {
    samples: toneSamples('countdown', SAMPLES_A_SECOND),
    sampleRate: SAMPLES_A_SECOND,
    fallsAfterSeconds: 0,
  };
  const ready = new Map<string, Count>();
  const making = new Set<string>();
  let soundClock: { context: BaseAudioContext; read: SoundClock } | null = null;
  let readUntilMilliseconds = 0;
  let reading: unknown = null;

  /** Reads both clocks; null where no sound runs. */
  const running = (): (Output & { read: SoundClock }) | null => {
    const out = outputOf(output);
    if (out === null) return null;
    const { context } = out;
    if (soundClock?.context !== context) soundClock = { context, read: new SoundClock() };
    soundClock.read.read(clock.now(), context.currentTime);
    return { ...out, read: soundClock.read };
  };
  const readOn = () => {
    running();
    reading = clock.now() < readUntilMilliseconds ? clock.setTimeout(readOn, READ_EVERY_MS) : null;
  };
  const keepReading = () => {
    readUntilMilliseconds = clock.now() + READ_ON_MS;
    reading ??= clock.setTimeout(readOn, 0);
  };

  return {
    prepare(texts) {
      keepReading();
      for (const text of texts) {
        if (ready.has(text) || making.has(text)) continue;
        making.add(text);
        make(text)
          .then((sound) => {
            const fallsAfterSeconds = perceivedBeatSeconds(sound.samples, sound.sampleRate);
            ready.set(text, { ...sound, fallsAfterSeconds });
          })
          .catch(() => undefined)
          .finally(() => making.delete(text));
      }
    },
    place(text, atMilliseconds) {
      keepReading();
      const out = running();
      if (out === null || clock.now() - atMilliseconds > TOO_LATE_MS) return () => undefined;
      const sound = (text !== null && ready.get(text)) || tick;
      const atSeconds = out.read.soundSecondsAt(atMilliseconds) - sound.fallsAfterSeconds;
      return playSound(out, sound, { volume: volume(), atSeconds }).stop;
    },
  };
};

/** Where sound goes, while it runs. */
function outputOf(output: PlacedBeatsOptions['output']): Output | null {
  try {
    const out = output();
    return out.context.state === 'running' ? out : null;
  } catch {
    // A browser without sound still shows each beat.
    return null;
  }
}
