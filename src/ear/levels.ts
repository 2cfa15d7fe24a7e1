import {
  LOST_BELOW_DECIBELS,
  MOST_CLIPPED,
  type SoundHeard,
} from '../domain/hearing/microphoneAdvice';
import { FRAME_SECONDS } from './segmenting';

/** Whether replies come through: `quiet` is too near the noise, `loud` is distorted. */
export type HearsWell = 'unknown' | 'quiet' | 'good' | 'loud';

export interface LevelReport {
  /** 0 (silence) to 1 (the loudest there is), even steps to the ear. */
  level: number;
  hearsWell: HearsWell;
  /** The same sound by itself, for whoever measures. */
  sound?: SoundHeard;
}

/** Frames a report: about 0.1 s at 32 ms a frame. */
const FRAMES_EACH = 3;
/** Speech is judged once this much was heard: 0.3 s. */
const JUDGED_FRAMES = 10;
/** How fast the averages follow: a second or so of frames. */
const FOLLOW = 1 / 32;
const CLIPPED_PEAK = 0.99;
const QUIETEST_DECIBELS = -60;
/** Frames of a report that have to be surely speech, or surely none. */
const SPEECH_FRAMES = 2;
const NOTHING_YET = { power: 0, speech: 0, silence: 0, clipped: 0 };

/** Follows how loud it is and how far speech stands above the noise. */
export class LevelMeter {
  private frames = 0;
  private loudest = 0;
  private speechFrames = 0;
  private speechPower = 0;
  private noisePower = 1e-7;
  private clipped = 0;
  private now = NOTHING_YET;

  /** @param speech probability that this frame is speech. */
  push(frame: Float32Array, speech: number): LevelReport | null {
    let power = 0;
    let peak = 0;
    for (const sample of frame) {
      power += sample * sample;
      peak = Math.max(peak, Math.abs(sample));
    }
    power /= frame.length;
    this.loudest = Math.max(this.loudest, power);
    this.now = {
      power: this.now.power + power / FRAMES_EACH,
      speech: this.now.speech + (speech > 0.5 ? 1 : 0),
      silence: this.now.silence + (speech < 0.2 ? 1 : 0),
      clipped: this.now.clipped + (peak >= CLIPPED_PEAK ? 1 : 0),
    };
    if (speech > 0.5) {
      this.speechFrames += 1;
      // The first frames are an average of themselves, not of nothing.
      this.speechPower += (power - this.speechPower) * Math.max(FOLLOW, 1 / this.speechFrames);
      this.clipped += ((peak >= CLIPPED_PEAK ? 1 : 0) - this.clipped) * FOLLOW;
    } else if (speech < 0.2) this.noisePower += (power - this.noisePower) * FOLLOW;
    this.frames += 1;
    if (this.frames < FRAMES_EACH) return null;
    const level = 1 - decibels(this.loudest) / QUIETEST_DECIBELS;
    const sound = this.sound();
    this.frames = 0;
    this.loudest = 0;
    this.now = NOTHING_YET;
    return { level: Math.min(1, Math.max(0, level)), hearsWell: this.hearsWell(), sound };
  }

  private sound(): SoundHeard {
    const { power, speech, silence, clipped } = this.now;
    return {
      seconds: FRAMES_EACH * FRAME_SECONDS,
      decibels: decibels(power),
      sort: speech >= SPEECH_FRAMES ? 'speech' : silence === FRAMES_EACH ? 'silence' : 'mixed',
      clippedShare: clipped / FRAMES_EACH,
      noiseDecibels: decibels(this.noisePower),
    };
  }

  private hearsWell(): HearsWell {
    if (this.speechFrames < JUDGED_FRAMES) return 'unknown';
    if (this.clipped > MOST_CLIPPED) return 'loud';
    const above = decibels(this.speechPower) - decibels(this.noisePower);
    return above < LOST_BELOW_DECIBELS || decibels(this.speechPower) < QUIETEST_DECIBELS
      ? 'quiet'
      : 'good';
  }
}

const decibels = (power: number) => 10 * Math.log10(power + 1e-10);
