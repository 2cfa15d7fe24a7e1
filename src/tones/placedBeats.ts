import type { Beats, Clock } from '../ports';
import { playSound, type Output, type Playing, type Sound } from '../sounding/playing';
import { perceivedBeatSeconds } from './perceivedBeat';
import { toneSamples } from './shapes';
import { SoundClock } from './soundClock';

/** A count, and how long after its start it is felt to fall. */
interface Count extends Sound {
  fallsAfterSeconds: number;
}

/** One that has not ended: when it should begin, in true time, and when it does, in the sound's. */
interface Placed {
  beginsAtMilliseconds: number;
  atSeconds: number;
  sound: Sound;
  playing: Playing;
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
/** What is off by more is moved, if it begins later than that: its sound is on its way before. */
const OFF_SECONDS = 0.006;
const SOON_SECONDS = 0.015;
/** A page that was frozen leaves out what it missed: a late count is a wrong one. */
const TOO_LATE_MS = 250;

/**
 * Counts and beats placed ahead on the clock of the sound itself, and moved where that stood for a
 * moment. While sound is suspended (before the tap, in a phone call) they are left out, also those
 * that were placed already.
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
  let placed: Placed[] = [];

  const silence = () => {
    for (const { playing } of placed) playing.stop();
    placed = [];
  };
  /** Reads both clocks; null where no sound runs. */
  const running = (): (Output & { read: SoundClock }) | null => {
    const out = outputOf(output);
    if (out === null || (soundClock !== null && soundClock.context !== out.context)) silence();
    if (out === null) return null;
    const { context } = out;
    if (soundClock?.context !== context) soundClock = { context, read: new SoundClock() };
    soundClock.read.read(clock.now(), context.currentTime);
    return { ...out, read: soundClock.read };
  };
  const play = (out: Output, sound: Sound, atSeconds: number) =>
    playSound(out, sound, { volume: volume(), atSeconds });
  /** Those that have not begun, to where they belong; what comes far too late falls silent. */
  const move = (out: Output & { read: SoundClock }) => {
    const now = out.context.currentTime;
    placed = placed.filter((beat) => {
      const { beginsAtMilliseconds, atSeconds, sound, playing } = beat;
      if (atSeconds + sound.samples.length / sound.sampleRate < now) return false;
      const belongsAtSeconds = out.read.soundSecondsAt(beginsAtMilliseconds);
      const isToCome = atSeconds > now + SOON_SECONDS;
      const toSeconds = isToCome ? Math.max(belongsAtSeconds, now) : atSeconds;
      const isTooLate = (toSeconds - belongsAtSeconds) * 1000 > TOO_LATE_MS;
      if (!isTooLate && Math.abs(toSeconds - atSeconds) <= OFF_SECONDS) return true;
      playing.stop();
      if (isTooLate) return false;
      beat.atSeconds = toSeconds;
      beat.playing = play(out, sound, toSeconds);
      return true;
    });
  };
  const readOn = () => {
    const out = running();
    if (out !== null) move(out);
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
      const aheadMilliseconds = 1000 * sound.fallsAfterSeconds;
      const beginsAtMilliseconds = Math.max(atMilliseconds - aheadMilliseconds, clock.now());
      const atSeconds = out.read.soundSecondsAt(beginsAtMilliseconds);
      const playing = play(out, sound, atSeconds);
      const beat: Placed = { beginsAtMilliseconds, atSeconds, sound, playing };
      placed.push(beat);
      return () => {
        placed = placed.filter((each) => each !== beat);
        beat.playing.stop();
      };
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
