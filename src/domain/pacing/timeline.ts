import type { Side } from '../areas';
import { BREATH_SECONDS, type PacedLine, type PacedPhase } from './line';

type Beat = PacedLine['beats'][number];

/** Puts lines one after the other; the next starts where the one before ends. */
export class Timeline {
  readonly lines: PacedLine[] = [];
  /** Where the last line ends. */
  endSeconds = 0;

  constructor(
    private readonly side: Side | null,
    private readonly secondsOf: (text: string) => number,
  ) {}

  /** A cue lasts as long as its words and a breath; empty text is no line. */
  cue(text: string | undefined): void {
    if (text === undefined || text === '') return;
    this.add('cueing', this.cueSeconds(text), text, [], null);
  }

  /** What a cue takes: its words and a breath. */
  cueSeconds(text: string | undefined): number {
    return text === undefined || text === '' ? 0 : this.secondsOf(text) + BREATH_SECONDS;
  }

  /** A stretch of exactly `seconds`; nothing where that is 0. */
  stretch(
    phase: PacedPhase,
    seconds: number,
    {
      beats = [],
      rep = null,
      text = null,
    }: Partial<Pick<PacedLine, 'beats' | 'rep' | 'text'>> = {},
  ): void {
    if (seconds > 0) this.add(phase, seconds, text, beats, rep);
  }

  private add(
    phase: PacedPhase,
    seconds: number,
    text: string | null,
    beats: Beat[],
    rep: number | null,
  ): void {
    const atSeconds = this.endSeconds;
    this.lines.push({ phase, atSeconds, seconds, text, beats, rep, side: this.side });
    // Whole milliseconds, or the sums of many lines would drift apart in the last digit.
    this.endSeconds = Math.round((atSeconds + seconds) * 1000) / 1000;
  }
}
