import type { Beats, Clock } from '../ports';
import { playSound, type Output, type Playing, type Sound } from '../sounding/playing';
import { perceivedBeatSeconds } from './perceivedBeat';
import { toneSamples } from './shapes';
import { SoundClock } from './soundClock';

/** A count, and how long after its start it is felt to fall. */
interface Count extends Sound {
  fallsAfterSeconds: number;
}

/** One that may not have begun. */
interface Placed {
  atMilliseconds: number;
  atSeconds: number;
  sound: Count;
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

  /** Reads both clocks; null where no sound runs. */
  const running = (): (Output & { read: SoundClock }) | null => {
    const out = outputOf(output);
    if (out === null) {
      for (const { playing } of placed) playing.stop();
      placed = [];
      return null;
    }
    const { context } = out;
    if (soundClock?.context !== context) soundClock = { context, read: new SoundClock() };
    soundClock.read.read(clock.now(), context.currentTime);
    return { ...out, read: soundClock.read };
  };
  const secondsOf = ({ read }: { read: SoundClock }, atMilliseconds: number, sound: Count) =>
    read.soundSecondsAt(atMilliseconds) - sound.fallsAfterSeconds;
  const play = (out: Output, sound: Count, atSeconds: number) =>
    playSound(out, sound, { volume: volume(), atSeconds });
  /** Those that have not begun, to where they belong. */
  const move = (out: Output & { read: SoundClock }) => {
    const now = out.context.currentTime;
    placed = placed.filter(({ atSeconds }) => atSeconds > now + SOON_SECONDS);
    for (const beat of placed) {
      const atSeconds = secondsOf(out, beat.atMilliseconds, beat.sound);
      if (Math.abs(atSeconds - beat.atSeconds) <= OFF_SECONDS) continue;
      beat.playing.stop();
      beat.atSeconds = atSeconds;
      if ((now - atSeconds) * 1000 <= TOO_LATE_MS) beat.playing = play(out, beat.sound, atSeconds);
    }
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
      const atSeconds = secondsOf(out, atMilliseconds, sound);
      const beat = { atMilliseconds, atSeconds, sound, playing: play(out, sound, atSeconds) };
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
