import { Agreeing, isPlainStop } from './agreeing';
import { ACTS_FROM } from './confidence';
import { HALT_SECONDS, type Halting, type Open } from './halting';
import { LookAway } from './lookAway';
import type { HeardWords, Look, Recogniser } from './recognising';

/** Looks at whole replies. */
export interface WholeRecogniser extends Pick<Recogniser, 'look'> {
  /** It looks in another thread, and sound goes on being heard meanwhile. */
  readonly isApart?: boolean;
  /** It knows no more than the one that looks for stop words. */
  readonly isSmall?: boolean;
}

/** A stop word that is believed, and how long ago it began. */
export interface Halt {
  heard: HeardWords;
  beganSecondsAgo: number;
}

/** "Stop" as quick looks found it, and what the better reader makes of the same sound. */
interface Closer {
  heard: HeardWords;
  atSeconds: number;
  look: Look;
}

/**
 * Watches for stop words: quick looks, where one finds "stop" a closer look by the better reader at
 * the same short sound, and what looks at the whole say besides. All together are believed or not.
 */
export class HaltWatch {
  private readonly agreeing = new Agreeing();
  private readonly closer = new LookAway<Closer>();
  /** Closer looks at what lies before this come too late. */
  private settledAtSeconds = -Infinity;

  /** @param halting null: nothing is looked for but the whole. */
  constructor(
    private readonly halting: Halting | null,
    private readonly better: WholeRecogniser,
  ) {}

  /** Whether stop words are looked for by themselves. */
  get isOn(): boolean {
    return this.halting !== null;
  }

  /** Whether its last look found one, believed or not: a better reader shall look soon. */
  get suspects(): boolean {
    return this.halting?.suspects === true;
  }

  isTime(nowSeconds: number, isFresh: boolean): boolean {
    return this.halting?.isTime(nowSeconds, isFresh) === true;
  }

  /** What is said from now on has nothing to do with what was. */
  forget(nowSeconds: number): void {
    this.settledAtSeconds = nowSeconds;
    this.agreeing.forget();
  }

  /** Words were told, these or others. */
  wasTold(nowSeconds: number): void {
    this.halting?.wasTold(nowSeconds);
    this.forget(nowSeconds);
  }

  /** @param heard the stop word that a look at the whole found, or null. */
  noteWhole(heard: HeardWords | null, atSeconds: number): void {
    this.agreeing.note('whole', heard, atSeconds);
  }

  /** As surely as all looks together heard this stop word; null where that is not enough. */
  sureOf(heard: HeardWords, nowSeconds: number): HeardWords | null {
    const confidence = this.agreeing.belief(nowSeconds);
    return confidence >= ACTS_FROM ? { ...heard, confidence } : null;
  }

  /** Looks for one in the latest of the sound; null where none is believed, or not yet. */
  async look(
    latest: (seconds: number) => Float32Array,
    open: Open,
    nowSeconds: number,
  ): Promise<Halt | null> {
    if (this.halting === null) return null;
    const heard = await this.halting.look(latest, open, nowSeconds);
    this.agreeing.note('halting', heard, nowSeconds);
    if (heard === null) return null;
    const halt = this.haltOf(heard, nowSeconds, nowSeconds);
    if (halt !== null || !isPlainStop(heard.text)) return halt;
    if (this.better.isSmall === true || this.closer.isOut) return null;
    const closer = this.lookCloser(heard, latest(HALT_SECONDS), open, nowSeconds);
    if (this.better.isApart !== true) return this.known(await closer, nowSeconds);
    this.closer.send(closer, nowSeconds);
    return null;
  }

  /** A stop word that is believed since a closer look has come back; null where none is. */
  async back(nowSeconds: number): Promise<Halt | null> {
    const closer = await this.closer.back(nowSeconds);
    return closer && this.known(closer, nowSeconds);
  }

  private async lookCloser(
    heard: HeardWords,
    sound: Float32Array,
    { grammar, lexicon }: Open,
    atSeconds: number,
  ): Promise<Closer> {
    const look = await this.better.look(sound, grammar, lexicon, { once: true });
    return { heard, atSeconds, look };
  }

  private known({ heard, atSeconds, look }: Closer, nowSeconds: number): Halt | null {
    if (atSeconds <= this.settledAtSeconds) return null;
    const isSame = look.heard !== null && isPlainStop(look.heard.text);
    this.agreeing.note('closer', isSame ? look.heard : null, atSeconds);
    return this.haltOf(heard, atSeconds, nowSeconds);
  }

  private haltOf(heard: HeardWords, atSeconds: number, nowSeconds: number): Halt | null {
    const sure = this.sureOf(heard, nowSeconds);
    const beganSecondsAgo = heard.spokenSeconds + heard.silenceSeconds + nowSeconds - atSeconds;
    return sure && { heard: sure, beganSecondsAgo };
  }
}
