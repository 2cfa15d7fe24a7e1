import type { Grammar } from '../domain/hearing/grammar';
import { meaningOf } from './meaning';

/**
 * Of voices that taught the ear, 10 dB below, five in six fell below this line, and none of the
 * coach's own, 3 dB up or down. Twice as far away is 6 dB: who walks further is asked once.
 */
const FAR_BELOW_DECIBELS = 6;
/** The coach's loudness is the middle of so many replies; one alone says little. */
const REMEMBERED = 5;
const FEWEST = 2;
/** So many quiet ones in a row are the coach's, who walked away or speaks more softly. */
const DOUBTED_AT_MOST = 3;
/** Who was silent for so long may be anywhere; practice, no source. */
const FORGOTTEN_SECONDS = 180;

/** What a reply does here: only grades are doubted, since they can be asked about and can wait. */
export type Sort = 'grade' | 'answer' | 'other';

const WAITS_FOR_NOTHING = /pain|redFlag|command/;

/**
 * Pain, red flags and commands are no grades; nor is anything where the grammar tells no meanings,
 * or at idle, where a grade is offered before it counts anyway. Whoever was just asked answers.
 */
export function sortOf(grammar: Grammar, text: string): Sort {
  if (grammar.prompt === 'confirm') return 'answer';
  if (grammar.prompt === 'idle') return 'other';
  const meaning = meaningOf(grammar, text);
  return meaning === text || WAITS_FOR_NOTHING.test(meaning) ? 'other' : 'grade';
}

/**
 * How loud the coach's replies came in lately; decibels of any one scale, seconds of the sound.
 * A grade far below is perhaps said at the next rack. An answer as quiet as it, or more such
 * grades, and the coach is taken to be where it came from.
 */
export class CoachLevel {
  private known: number[] = [];
  private doubted: number[] = [];
  private lastSeconds = 0;

  /** Whether a reply so loud is far below the coach's. */
  isFarBelow(decibels: number, atSeconds: number): boolean {
    if (atSeconds - this.lastSeconds > FORGOTTEN_SECONDS) this.forget();
    if (this.known.length < FEWEST) return false;
    return decibels < middleOf(this.known) - FAR_BELOW_DECIBELS;
  }

  /** A reply that is acted on, or a grade that is not for its loudness alone. */
  told(sort: Sort, decibels: number, atSeconds: number): void {
    const { doubted } = this;
    if (!this.isFarBelow(decibels, atSeconds))
      return this.take([...this.known, decibels], atSeconds);
    if (sort === 'answer') return this.take([...doubted.slice(-1), decibels], atSeconds);
    if (sort === 'grade') doubted.push(decibels);
    if (doubted.length >= DOUBTED_AT_MOST) this.take(doubted, atSeconds);
  }

  /** Another microphone hears another loudness. */
  forget(): void {
    this.known = [];
    this.doubted = [];
  }

  private take(known: number[], atSeconds: number): void {
    this.known = known.slice(-REMEMBERED);
    this.doubted = [];
    this.lastSeconds = atSeconds;
  }
}

/** Of two middles the quieter. */
const middleOf = (all: number[]): number =>
  [...all].sort((one, other) => one - other)[Math.floor((all.length - 1) / 2)] ?? -Infinity;
