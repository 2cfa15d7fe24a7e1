import type { Cancel, Clock, Voice } from '../ports';
import { playSound, type Output, type Playing, type Sound } from '../sounding/playing';
import { sharedManner, type SharedManner } from './manner';
import { oneAtATime } from './oneAtATime';
import type { Synthesis } from './synthesis';
import { SAYSO_VOICE, type ShippedVoice } from './voices';

export interface ShippedVoiceOptions {
  /** Makes the lines; shared with whoever else needs the voice. */
  synthesis: Synthesis;
  /** Asked for each line, since a context may be replaced. */
  output: () => Output;
  clock: Clock;
  /** Shared with whatever speaks beside it; its own where left out. */
  manner?: SharedManner;
  /** Who speaks; default {@link SAYSO_VOICE}. */
  voice?: ShippedVoice;
}

/** A line takes 60 to 240 ms to make; the first also waits for a download of 21 MB. */
const MAKE_WAIT_MS = 4000;
/** About 10 dB: somebody who speaks is heard over it, and the line is still understood. */
const DUCKED = 0.32;
/** How late the end of a sound may be told before sound counts as broken (a phone call). */
const END_WAIT_MS = 1000;

/**
 * The shipped voice: the same in every browser, and without a network. A line fails where it
 * cannot be made in 4 s, where sound is suspended, and where its end does not come within a
 * second of its time.
 */
export const createShippedVoice = ({
  synthesis,
  output,
  clock,
  manner = sharedManner(),
  voice = SAYSO_VOICE,
}: ShippedVoiceOptions): Voice => {
  let ducked = false;
  let playing: Playing | null = null;
  const volume = () => manner.now().volume * (ducked ? DUCKED : 1);
  const make = (text: string, when: 'now' | 'later') =>
    synthesis.make(text, { ...voice, stretch: voice.stretch * manner.now().stretch }, when);

  return {
    say: oneAtATime((text, told) => {
      let over = false;
      let silence: Cancel = () => undefined;
      let watchdog: unknown = null;
      const watch = (milliseconds: number) => {
        clock.clearTimeout(watchdog);
        watchdog = clock.setTimeout(() => end('failed'), milliseconds);
      };
      const stop = () => {
        over = true;
        clock.clearTimeout(watchdog);
        silence();
      };
      const end = (how: 'spoken' | 'failed') => {
        stop();
        told.ended(how);
      };
      const play = (sound: Sound) => {
        if (over) return;
        if (sound.samples.length === 0) return end('spoken');
        const out = output();
        if (out.context.state !== 'running') return end('failed');
        watch((1000 * sound.samples.length) / sound.sampleRate + END_WAIT_MS);
        const line = playSound(out, sound, { volume: volume(), ended: () => end('spoken') });
        silence = line.stop;
        playing = line;
        told.started();
      };
      watch(MAKE_WAIT_MS);
      make(text, 'now')
        .then(play)
        .catch(() => {
          if (!over) end('failed');
        });
      return stop;
    }),
    prepare(texts) {
      for (const text of texts) make(text, 'later').catch(() => undefined);
    },
    adjust: manner.adjust,
    duck(isDucked) {
      ducked = isDucked;
      playing?.turnTo(volume());
    },
  };
};
