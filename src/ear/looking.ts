import type { Grammar } from '../domain/hearing/grammar';
import { beginsAnother } from './beginnings';
import { sortOf, type CoachLevel } from './coachLevel';
import { ACTS_FROM, ASKS_FROM, HALTS_FROM } from './confidence';
import type { Lexicon } from './lexicon';
import { wordsOf, type Looked } from './looked';
import { loudestOf } from './loudness';
import { PhonesHeard } from './phonesHeard';
import type { HeardWords, Look, Recogniser } from './recognising';
import type { Segmenter } from './segmenting';

/** Silence after which the reply is worked out, so that it is ready when the silence is enough. */
export const READY_SILENCE_SECONDS = 0.16;
/** Nothing ends by a look that has been known for longer than this. */
const SEEN_SECONDS = 0.25;
/** A fault that a stop word may begin is whole within this; longest is "weight is on the heels". */
const REST_SECONDS = 1;
/** A grade far below the coach's loudness is asked about. */
const DOUBTED = ACTS_FROM - 0.01;

/** A look that was had and is not taken yet. */
export interface Seen {
  look: Look;
  sound: Float32Array;
  asked: Asked;
  atSeconds: number;
  spokenFrames: number;
  silenceSeconds: number;
  /** Which speech it was of. */
  turn: number;
}
interface Asked {
  grammar: Grammar;
  lexicon: Lexicon;
}

/** Looks at the speech that is being heard, and what the last of them believed. */
export class Looking {
  looked: Looked | null = null;
  /** When the last look was; before one, when the speech began. */
  atSeconds = 0;
  readonly phones = new PhonesHeard();
  /** A stop word that may have been the beginning of another reply, and when it ended. */
  private begun: { heard: HeardWords; endedAtSeconds: number } | null = null;
  private turn = 0;
  /** Whether the last look was had once only, in doubt too. */
  private wasOnce = false;

  constructor(
    private readonly recogniser: Pick<Recogniser, 'look'>,
    private readonly coach: CoachLevel,
    private readonly isUrgent: (text: string) => boolean,
  ) {}

  /** What is looked at from now on is something else. */
  begin(nowSeconds: number): void {
    this.turn += 1;
    this.looked = null;
    this.begun = null;
    this.atSeconds = nowSeconds;
    this.phones.forget();
  }

  /** Words that the last look would act on or ask about. */
  get believed(): HeardWords | null {
    const heard = this.looked?.heard ?? null;
    return this.isBelieved(heard) ? heard : null;
  }

  /** A stop word of which the rest has not come, and does not come any more: something else was said. */
  haltAfterAll(nowSeconds: number, isOver: boolean): HeardWords | null {
    const { begun, believed } = this;
    if (begun === null || (believed !== null && believed.text !== begun.heard.text)) return null;
    return isOver || nowSeconds - begun.endedAtSeconds >= REST_SECONDS ? begun.heard : null;
  }

  /** Whether the last look is new enough, and saw a silence or the same words once more. */
  isSeen(nowSeconds: number): boolean {
    const { looked } = this;
    if (looked === null || nowSeconds - looked.knownAtSeconds > SEEN_SECONDS) return false;
    return looked.silenceSeconds >= READY_SILENCE_SECONDS || looked.agreed >= 2;
  }

  /** A look at what was said until now; nothing of it counts before it is taken. */
  async look(segment: Segmenter, asked: Asked, nowSeconds: number): Promise<Seen> {
    const { turn } = this;
    const { spokenFrames, trailingSeconds: silenceSeconds } = segment;
    const found = await this.fromWhereItBegan(segment, asked, nowSeconds);
    return { ...found, asked, atSeconds: nowSeconds, spokenFrames, silenceSeconds, turn };
  }

  /** @param nowSeconds when it is known: later than its sound where it was had in another thread. */
  take(seen: Seen, nowSeconds: number): void {
    if (seen.turn !== this.turn) return;
    const { look, sound, asked, atSeconds, spokenFrames, silenceSeconds } = seen;
    const { looked } = this;
    const decibels = look.heard === null ? -Infinity : loudestOf(wordsOf(look.heard, sound));
    const isSure = (look.heard?.confidence ?? 0) >= ACTS_FROM;
    const whole = this.orBegun(look.heard, asked);
    const first = this.doubted(whole, asked.grammar, decibels, atSeconds);
    const isSame = first !== null && first.text === looked?.heard?.text;
    const heard = isSame && looked.agreed > 0 ? stillBelieved(first) : first;
    this.looked = {
      ...look,
      ...{ heard, decibels, isSure, atSeconds, spokenFrames, silenceSeconds },
      knownAtSeconds: nowSeconds,
      agreed: this.isBelieved(heard) ? (isSame ? looked.agreed : 0) + 1 : 0,
    };
    this.atSeconds = atSeconds;
    this.phones.note(look, atSeconds);
    this.noteBegun(atSeconds);
  }

  /**
   * Where nothing is believed once it is over, with more from before: a slow "st" begins before
   * all that the detector hears.
   */
  private async fromWhereItBegan(
    segment: Segmenter,
    { grammar, lexicon }: Asked,
    nowSeconds: number,
  ): Promise<{ look: Look; sound: Float32Array }> {
    const sound = segment.sound();
    const isOver = segment.trailingSeconds >= READY_SILENCE_SECONDS;
    const longer = isOver ? segment.soundFromEarlier() : null;
    // Where nothing is asked a "stop" may wait for the next look, which comes sooner so; that one
    // may take its time, or a doubtful "stop" over a line would never be looked at twice.
    const once = grammar.prompt === 'idle' && !isOver && !this.wasOnce;
    this.wasOnce = once;
    const first = await this.recogniser.look(sound, grammar, lexicon, { once });
    // Not always: a crowd is no speech to the heads where nothing sets it off.
    const look = this.phones.lostIn(first, nowSeconds)
      ? await this.recogniser.look(sound, grammar, lexicon, { breaksOff: true })
      : first;
    if (longer === null || this.isBelieved(look.heard)) return { look, sound };
    const again = await this.recogniser.look(longer, grammar, lexicon);
    return this.isBelieved(again.heard) ? { look: again, sound: longer } : { look, sound };
  }

  private noteBegun(nowSeconds: number): void {
    const { believed: heard } = this;
    if (heard === null) return;
    if (heard.following !== 'rest') this.begun = null;
    else this.begun ??= { heard, endedAtSeconds: nowSeconds - heard.silenceSeconds };
  }

  /** A stop word that may be the beginning of another reply is waited for as that one is. */
  private orBegun(heard: HeardWords | null, { grammar, lexicon }: Asked): HeardWords | null {
    if (heard === null || !this.isUrgent(heard.text)) return heard;
    return beginsAnother(grammar, heard.text, lexicon) ? { ...heard, following: 'rest' } : heard;
  }

  private isBelieved(heard: HeardWords | null): heard is HeardWords {
    if (heard === null) return false;
    return heard.confidence >= (this.isUrgent(heard.text) ? HALTS_FROM : ASKS_FROM);
  }

  /** What is said far below the coach's loudness may be said at the next rack. */
  private doubted(
    heard: HeardWords | null,
    grammar: Grammar,
    decibels: number,
    nowSeconds: number,
  ): HeardWords | null {
    if (heard === null || heard.confidence < ACTS_FROM) return heard;
    if (sortOf(grammar, heard.text) !== 'grade') return heard;
    const isDoubted = this.coach.isFarBelow(decibels, nowSeconds);
    return isDoubted ? { ...heard, confidence: DOUBTED } : heard;
  }
}

/** Words that the look before believed are asked about though talk after them makes them less likely. */
const stillBelieved = (heard: HeardWords): HeardWords =>
  heard.confidence >= HALTS_FROM && heard.confidence < ASKS_FROM
    ? { ...heard, confidence: ASKS_FROM }
    : heard;
