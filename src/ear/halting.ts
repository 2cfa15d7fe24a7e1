import type { Grammar } from '../domain/hearing/grammar';
import { phonesOf } from '../domain/hearing/phonesApart';
import { isStop } from './agreeing';
import { beginsAnother } from './beginnings';
import { ACTS_FROM } from './confidence';
import type { Lexicon } from './lexicon';
import type { HeardWords, Recogniser } from './recognising';

/** As often a look while somebody stands out, in seconds of sound; each takes half of that. */
const LOOK_EVERY_SECONDS = 0.064;
/** Where the last look found one that was not believed. */
const LOOK_AGAIN_SECONDS = 0.032;
/** Where more sound waits, looks wait for it, but no longer than this. */
const LOOK_BEHIND_SECONDS = 0.2;
/** Longer than any halting words with what is said right before them. */
export const HALT_SECONDS = 1.2;
/** Words that begin so soon after the beginning of what is looked at may follow a "don't" before it. */
const BEFORE_SECONDS = 0.35;

/**
 * Words of talk that sound alike or begin so, with their phones: what is nearer to one of them, or
 * to a word of the replies that are open, halts nothing. "Don't" before a stop word is one too.
 */
const ALIKE: Record<string, string> = {
  step: 'S T EH P',
  top: 'T AA P',
  stopped: 'S T AA P T',
  stopping: 'S T AA P IH NG',
  stock: 'S T AA K',
  stuff: 'S T AH F',
  start: 'S T AA R T',
  stand: 'S T AE N D',
  still: 'S T IH L',
  stay: 'S T EY',
  stack: 'S T AE K',
  stick: 'S T IH K',
  strap: 'S T R AE P',
  shop: 'SH AA P',
  drop: 'D R AA P',
  pop: 'P AA P',
  talk: 'T AO K',
  hop: 'HH AA P',
  spot: 'S P AA T',
  up: 'AH P',
  off: 'AO F',
  on: 'AA N',
  hot: 'HH AA T',
  hard: 'HH AA R D',
  pass: 'P AE S',
  part: 'P AA R T',
  cause: 'K AO Z',
  pose: 'P OW Z',
  post: 'P OW S T',
  paused: 'P AO Z D',
  boss: 'B AO S',
  away: 'AH W EY',
  way: 'W EY',
  late: 'L EY T',
  eight: 'EY T',
  great: 'G R EY T',
  what: 'W AH T',
  hold: 'HH OW L D',
  old: 'OW L D',
  hand: 'HH AE N D',
  hang: 'HH AE NG',
  half: 'HH AE F',
  hall: 'HH AO L',
  all: 'AO L',
  fault: 'F AO L T',
  halter: 'HH AO L T ER',
  dont: 'D OW N T',
  cant: 'K AE N T',
};
const DENIED = ['dont', 'cant'];
const isDenied = (text: string): boolean => DENIED.some((word) => text.startsWith(`${word} `));

/**
 * Looks for stop words alone, in the last of the sound alone, by a reader that is soon done: a look
 * takes a fourth of one at a whole reply, so it may be had four times as often. What it does not
 * hear is left to those.
 */
export class Halting {
  private lookedAtSeconds = 0;
  /** Until when all is settled: told, or said to be no stop. */
  private settledUntilSeconds = -Infinity;
  private isSuspected = false;
  private readonly made = new WeakMap<Lexicon, WeakMap<Grammar, Halts>>();

  constructor(
    private readonly recogniser: Pick<Recogniser, 'look'>,
    private readonly urgent: ReadonlySet<string>,
  ) {}

  /**
   * Whether a look is due at this second of the sound; `isFresh`: no more of it waits. A look at
   * what is over already would make the next one late.
   */
  isTime(nowSeconds: number, isFresh: boolean): boolean {
    const often = this.isSuspected ? LOOK_AGAIN_SECONDS : LOOK_EVERY_SECONDS;
    const every = isFresh ? often : LOOK_BEHIND_SECONDS;
    return nowSeconds - this.lookedAtSeconds >= every - 1e-6;
  }

  /** Words were told, these or others. */
  wasTold(nowSeconds: number): void {
    this.settledUntilSeconds = nowSeconds;
    this.isSuspected = false;
  }

  /** Whether its last look found one, believed or not: a better reader shall look soon. */
  get suspects(): boolean {
    return this.isSuspected;
  }

  /**
   * The stop word in the last HALT_SECONDS, or null.
   * @param latest the last seconds of the sound, or what there is of them.
   * @param open what else may be said, and how it sounds.
   */
  async look(
    latest: (seconds: number) => Float32Array,
    open: Open,
    nowSeconds: number,
  ): Promise<HeardWords | null> {
    this.lookedAtSeconds = nowSeconds;
    const { grammar, lexicon, waiting } = this.among(open);
    const unsettledSeconds = nowSeconds - this.settledUntilSeconds;
    const within = async (seconds: number) => {
      const sound = latest(Math.min(seconds, unsettledSeconds));
      return (await this.recogniser.look(sound, grammar, lexicon)).heard;
    };
    let heard = await within(HALT_SECONDS);
    if (heard !== null && HALT_SECONDS - sinceBegan(heard) < BEFORE_SECONDS)
      heard = await within(HALT_SECONDS + BEFORE_SECONDS);
    // "Don't" leaves what is looked at before the rest of it does.
    if (heard !== null && heard.confidence >= ACTS_FROM && isDenied(heard.text))
      this.settledUntilSeconds = nowSeconds - heard.silenceSeconds;
    this.isSuspected = heard !== null && this.urgent.has(heard.text);
    return this.isSuspected && !waiting.has(heard?.text ?? '') ? heard : null;
  }

  private among(open: Open): Halts {
    const made = this.made.get(open.lexicon) ?? new WeakMap<Grammar, Halts>();
    this.made.set(open.lexicon, made);
    const halts = made.get(open.grammar) ?? haltsOf([...this.urgent], open);
    made.set(open.grammar, halts);
    return halts;
  }
}

/** The replies that are open, and how their words sound. */
export interface Open {
  grammar: Grammar;
  lexicon: Lexicon;
}
/** `waiting`: what may be the beginning of another reply, and is left to looks at the whole of it. */
interface Halts extends Open {
  waiting: ReadonlySet<string>;
}

const ALIKE_LEXICON: Lexicon = Object.fromEntries(
  Object.entries(ALIKE).map(([word, phones]) => [word, [phones.split(' ')]]),
);

function haltsOf(urgent: string[], open: Open): Halts {
  const lexicon = { ...ALIKE_LEXICON, ...open.lexicon };
  const said = urgent.filter((text) => text.split(' ').every((word) => word in lexicon));
  const words = open.grammar.arcs.flatMap(({ words }) => words.split(' '));
  const alike = [
    ...[...Object.keys(ALIKE), ...words],
    ...said.flatMap((text) => DENIED.map((word) => `${word} ${text}`)),
  ].filter((text) => text.split(' ').every((word) => word in lexicon));
  // "Weight" sounds as "wait" does: neither is told from the other.
  const halting = new Set(said.flatMap((words) => soundsOf(words, lexicon)));
  const arcs = [
    ...said.map((words) => ({ from: 0, to: 1, words, means: isStop(words) ? 'stop' : 'pause' })),
    ...[...new Set(alike)]
      .filter((words) => !soundsOf(words, lexicon).some((sound) => halting.has(sound)))
      .map((words) => ({ from: 0, to: 1, words })),
  ];
  const waiting = said.filter((text) => beginsAnother(open.grammar, text, open.lexicon));
  const grammar = { prompt: 'idle', states: 2, finals: [1], arcs };
  return { lexicon, grammar, waiting: new Set(waiting) };
}

const sinceBegan = ({ spokenSeconds, silenceSeconds }: HeardWords): number =>
  spokenSeconds + silenceSeconds;

const soundsOf = (words: string, lexicon: Lexicon): string[] =>
  phonesOf(words, lexicon).map((phones) => phones.join(' '));
