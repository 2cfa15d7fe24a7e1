import type { Beats, Cancel, Clock, Tones, Voice } from '../ports';

/** A page that was frozen leaves out what it missed: a late count is a wrong one. */
const TOO_LATE_MS = 250;

/**
 * Counts in a voice that cannot be placed on the clock of the sound: it is asked to speak at the
 * moment, so a count comes as late as the voice begins. Where it cannot say one, the tone sounds.
 */
export const createSpokenBeats = ({
  voice,
  tones,
  clock,
}: {
  voice: Voice;
  tones: Tones;
  clock: Clock;
}): Beats => ({
  prepare: () => undefined,
  place(text, atMilliseconds) {
    const inMilliseconds = atMilliseconds - clock.now();
    if (inMilliseconds < -TOO_LATE_MS) return () => undefined;
    const tick = () => tones.play('countdown');
    let silence: Cancel = () => undefined;
    const count = () => {
      if (text === null) return tick();
      silence = voice.say(text, { ended: (how) => (how === 'failed' ? tick() : undefined) });
    };
    const timer = clock.setTimeout(count, Math.max(0, inMilliseconds));
    return () => {
      clock.clearTimeout(timer);
      silence();
    };
  },
});
