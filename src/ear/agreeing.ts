import type { HeardWords } from './recognising';

/** Looks further apart are not at the same word. */
const AT_ONE_WORD_SECONDS = 0.4;
/** A look that believes it less says nothing. */
const SAYS_FROM = 0.1;
/** Of each reader so many looks count, the surest: more of them see the same sound once more. */
const LOOKS_EACH = 2;

/**
 * Who looked: for stop words alone, by the better reader once more where that found "stop", or at
 * the whole reply.
 */
type By = 'halting' | 'closer' | 'whole';

interface Said {
  by: By;
  stops: boolean;
  confidence: number;
  atSeconds: number;
}

/**
 * What looks one after the other say of a stop word that is being spoken, taken together: two that
 * half believe it are as good as one that is sure, and it is not waited for a third.
 */
export class Agreeing {
  private said: Said[] = [];

  /** @param heard a stop word, or null where the look found none: then those before it by the same do not count. */
  note(by: By, heard: HeardWords | null, atSeconds: number): void {
    const says = heard !== null && heard.confidence >= SAYS_FROM ? heard : null;
    if (says === null) this.said = this.said.filter((each) => each.by !== by);
    else {
      const stops = isStop(says.text);
      this.said = this.said.filter((each) => each.stops === stops);
      this.said.push({ by, stops, confidence: says.confidence, atSeconds });
    }
  }

  /** How far it is to be believed now, 0 to 1. */
  belief(nowSeconds: number): number {
    const said = this.said.filter((each) => nowSeconds - each.atSeconds < AT_ONE_WORD_SECONDS);
    const whole = surest(said, 'whole');
    const halting = surest(said, 'halting');
    const closer = surest(said, 'closer');
    // What breaks off may be the beginning of something else: one look of the better reader is not enough.
    if (halting.length === 0 && whole.length + closer.length < 2) return 0;
    const looks = [...whole, ...halting, ...closer];
    return 1 - looks.reduce((doubt, confidence) => doubt * (1 - confidence), 1);
  }

  forget(): void {
    this.said = [];
  }
}

const surest = (said: Said[], by: By): number[] =>
  said
    .filter((each) => each.by === by)
    .map(({ confidence }) => confidence)
    .sort((one, other) => other - one)
    .slice(0, LOOKS_EACH);

/** Little that people say sounds like it; "halt", "wait" and "stop now" lie nearer to other words. */
export const isPlainStop = (words: string): boolean => words === 'stop';

/** Those that pause differ from those that stop. */
export const isStop = (words: string): boolean => /stop|halt/.test(words);
