import { FRAME } from './detecting';
import { Loudness } from './loudness';
import { HEARD_RATE } from './resampling';

/** Sound kept from before speech was noticed: a first consonant is quiet. */
export const PRE_ROLL_SECONDS = 0.25;
/** More of it, up to this, where the detector half heard it: a slow "st" lasts 0.35 s. */
const HALF_HEARD_SECONDS = 0.5;
const HALF_HEARD_AT = 0.15;
/** The last sound of a reply dies away in this time. */
const DYING_SECONDS = 0.2;
/** Silence that ends a click, and talk that was let go. */
export const SINGLE_SILENCE_SECONDS = 0.3;
/** Silence that ends a reply which could still go on. */
export const COMBINED_SILENCE_SECONDS = 0.65;

/** Speech begins at this probability and lasts while it stays above the lower one. */
const BEGINS_AT = 0.35;
const LASTS_ABOVE = 0.25;
/** Frames in a row before it counts as an onset: a dropped plate is shorter. */
const ONSET_FRAMES = 2;
/** Who stood out so lately may just have ended a short word. */
const STOOD_OUT_SECONDS = 0.3;
/** Speech shorter than this is a click: 96 ms, less than "up". */
const SHORTEST_FRAMES = 3;

export const secondsOf = (samples: number) => samples / HEARD_RATE;
export const FRAME_SECONDS = secondsOf(FRAME);

/** What a frame did to the segment that is being heard. */
export type Segmenting = 'silent' | 'onset' | 'speaking' | 'trailing' | 'too-short';

/**
 * Cuts sound into segments of speech. A pure machine over frames: the caller decides when enough
 * silence has followed (`trailingSeconds`) and then takes the segment.
 */
export class Segmenter {
  private frames: Judged[] = [];
  private readonly earlier: Judged[] = [];
  /** What lay before the pre-roll of the open segment. */
  private before: Judged[] = [];
  private speaking = false;
  private rising = 0;
  private voiced = 0;
  private trailing = 0;
  private dropped = false;
  private framesSinceStandingOut = Infinity;
  private readonly loudness = new Loudness();

  /** @param speech probability of speech in this frame. */
  push(frame: Float32Array, speech: number): Segmenting {
    if (this.dropped || this.speaking) {
      this.loudness.push(frame);
      this.framesSinceStandingOut += 1;
      if (this.loudness.standsOut) this.framesSinceStandingOut = 0;
    }
    if (this.dropped) return this.waitForSilence(frame, speech);
    if (!this.speaking) return this.wait(frame, speech);
    this.frames.push({ frame, speech });
    const lasts = speech >= (this.trailing > 0 ? BEGINS_AT : LASTS_ABOVE);
    if (lasts && !this.loudness.hasFallen) {
      this.voiced += 1;
      this.trailing = 0;
      return 'speaking';
    }
    this.trailing += 1;
    if (this.voiced < SHORTEST_FRAMES && this.trailingSeconds >= SINGLE_SILENCE_SECONDS) {
      this.reset();
      return 'too-short';
    }
    return 'trailing';
  }

  /** Whether a segment is open. */
  get open(): boolean {
    return this.speaking;
  }

  /** Whether somebody is clearly louder than most of what was heard, or was a moment ago. */
  get stoodOut(): boolean {
    return this.framesSinceStandingOut * FRAME_SECONDS < STOOD_OUT_SECONDS;
  }

  /** Silence since the last speech of the open segment. */
  get trailingSeconds(): number {
    return this.trailing * FRAME_SECONDS;
  }

  /** Length of the open segment with its pre-roll and trailing silence. */
  get seconds(): number {
    return this.frames.length * FRAME_SECONDS;
  }

  /** Frames with speech so far: grows only when more is said. */
  get spokenFrames(): number {
    return this.voiced;
  }

  /** The sound of the open segment so far. */
  sound(): Float32Array {
    return joined(this.frames);
  }

  /** The last seconds of it, or what there is of them, with what lay before it. */
  latest(seconds: number): Float32Array {
    return joined([...this.before, ...this.frames].slice(-Math.ceil(seconds / FRAME_SECONDS)));
  }

  /** The same with a quarter of a second more before it; null where there is no more. */
  soundFromEarlier(): Float32Array | null {
    return this.before.length === 0 ? null : joined([...this.before, ...this.frames]);
  }

  /** Keeps the last seconds of the open segment; what was said before them is settled. */
  forget(exceptSeconds: number): void {
    this.frames = this.frames.slice(-Math.ceil(exceptSeconds / FRAME_SECONDS));
    this.before = [];
  }

  /** Closes the segment. */
  reset(): void {
    // What was said is settled: it draws no more of itself into what comes next. A soft first
    // consonant may lie in the silence after it.
    const first = this.frames.length - Math.max(0, this.trailing - dyingFrames);
    this.frames.forEach(({ frame, speech }, at) => this.keep(frame, at < first ? 0 : speech));
    this.frames = [];
    this.before = [];
    this.speaking = false;
    this.rising = 0;
    this.voiced = 0;
    this.trailing = 0;
    this.loudness.clear();
    this.framesSinceStandingOut = Infinity;
  }

  /** Closes the segment and takes no part of this talk: the next begins after a silence, or louder. */
  drop(): void {
    this.reset();
    this.earlier.length = 0;
    this.dropped = true;
  }

  private waitForSilence(frame: Float32Array, speech: number): Segmenting {
    if (speech >= BEGINS_AT && this.loudness.standsOut) {
      this.dropped = false;
      this.trailing = 0;
      return this.wait(frame, speech);
    }
    this.keep(frame, 0);
    this.trailing = speech < LASTS_ABOVE ? this.trailing + 1 : 0;
    if (this.trailingSeconds >= SINGLE_SILENCE_SECONDS) {
      this.dropped = false;
      this.trailing = 0;
    }
    return 'silent';
  }

  private keep(frame: Float32Array, speech: number): void {
    this.earlier.push({ frame, speech });
    this.earlier.splice(0, this.earlier.length - halfHeardFrames);
  }

  private wait(frame: Float32Array, speech: number): Segmenting {
    this.keep(frame, speech);
    this.rising = speech >= BEGINS_AT ? this.rising + 1 : 0;
    if (this.rising < ONSET_FRAMES) return 'silent';
    this.speaking = true;
    this.voiced = this.rising;
    // The frames of the onset itself come on top of the pre-roll.
    const usual = this.earlier.length - preRollFrames - this.rising;
    const halfHeard = this.earlier.findIndex((each) => each.speech >= HALF_HEARD_AT);
    const from = Math.max(0, Math.min(usual, halfHeard - ONSET_FRAMES));
    const all = this.earlier.splice(0);
    this.before = all.slice(0, from);
    this.frames = all.slice(from);
    return 'onset';
  }
}

/** A frame, and how far it was heard as speech. */
interface Judged {
  frame: Float32Array;
  speech: number;
}

function joined(frames: Judged[]): Float32Array {
  const sound = new Float32Array(frames.length * FRAME);
  frames.forEach(({ frame }, index) => sound.set(frame, index * FRAME));
  return sound;
}

const preRollFrames = Math.ceil(PRE_ROLL_SECONDS / FRAME_SECONDS);
const dyingFrames = Math.ceil(DYING_SECONDS / FRAME_SECONDS);
const halfHeardFrames = Math.ceil(HALF_HEARD_SECONDS / FRAME_SECONDS);
