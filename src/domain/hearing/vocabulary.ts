import type { Area } from '../areas';
import type { Fault, FaultId, FaultKind } from '../faults';
import type { PainKind, RedFlag } from '../findings';
import type { Choice, Command } from './reply';

/**
 * One way to say something: words with `(left out|or one of)?` and `(one|of)` groups, such as
 * `knees (came|went)? forward`. Lower case, no punctuation but the apostrophe.
 */
export type Pattern = string;

/** `say`: scored by the recogniser and understood; `also`: understood only, spoken or typed. */
export interface Ways {
  say: Pattern[];
  also: Pattern[];
}

/** Ways to say it and the fewest words it is read back with. */
export interface ReadableWays extends Ways {
  readback: string;
}

/** Results a coach may name; `failed` says that it was no pass but not how (asked about). */
export const RESULT_WORDS = ['held', 'short', 'lost', 'not-tested', 'failed'] as const;
export type ResultWord = (typeof RESULT_WORDS)[number];

/** Commands with words of their own; `go-to` is made of an opener and a name. */
export type SpokenCommand = Exclude<Command, 'go-to'>;

/** What happened to a part of the body: `words` may be negated, `nouns` follow a bare "no". */
export interface StateWords {
  words: Pattern[];
  nouns: Pattern[];
  /** Said without a part it is of the one expected fault that it can be of ("flared"). */
  alone: boolean;
  /** Ends a clause about one of these parts: it is the one expected fault of that part ("went"). */
  ofOnlyFault: string[];
}

/** Any of these parts with a state of `is` is the fault; a negated `isNot` is the fault too. */
export interface FaultSign {
  about: string[];
  is: string[];
  isNot: string[];
}

export interface FaultWords extends Ways {
  id: FaultId;
  kind: FaultKind;
  areas: Area[];
  readback: string;
  signs: FaultSign[];
}

/** Small words that steer a sentence; every list holds patterns. */
export interface Talk {
  negators: Pattern[];
  /** Denies the noun that follows ("no rounding"); before anything else it is unclear. */
  refusals: Pattern[];
  /** The same, but only where punctuation follows: before a word they are a `negator` ("no,"). */
  refusalsApart: Pattern[];
  /** What follows replaces what was said before ("I mean"). */
  corrections: Pattern[];
  praise: Pattern[];
  /** An order to the athlete where it opens a clause ("push your hips back"). */
  orders: Pattern[];
  /** Talk to somebody wherever it stands ("your", "don't let"). */
  addressing: Pattern[];
  /** A question where one of these opens it and one of `askedOf` follows. */
  asking: Pattern[];
  askedOf: Pattern[];
  /** A question wherever it opens a clause ("how", "any"). */
  questions: Pattern[];
  /** Another day ("last week"): a red flag then is asked about. */
  past: Pattern[];
  /** What follows is like what was told, and tells no more ("like a"). */
  likenesses: Pattern[];
  /** Makes a reply uncertain ("maybe", "same"). */
  unsure: Pattern[];
  /** A position that is kept, though the range may be short ("kept the position"). */
  keeping: Pattern[];
  /** What was said before is said of this too ("the shoulders too"). */
  likewise: Pattern[];
  /** Separate clauses; the parts named before still count ("and"). */
  joins: Pattern[];
  /** Shows that it is told, not ordered ("stayed", "were"). */
  telling: Pattern[];
  /** Said around a command ("please", "can you"). */
  polite: Pattern[];
  /** After these it is told when something happened ("as the bar passed"). */
  circumstances: Pattern[];
  /** Words that change nothing ("the", "a bit", "on the way down"). */
  fillers: Pattern[];
}

/** Understood with small words anywhere between; `0` in a pattern is any number but one. */
export interface LooseWords {
  redFlags: Partial<Record<RedFlag, Pattern[]>>;
  /** These are all that is said, but for what may stand round them. */
  commands: Partial<Record<SpokenCommand, Pattern[]>>;
  /** Change nothing anywhere ("the", "a bit"). */
  small: string[];
  /** Change nothing where a body is told of ("has gone all"). */
  told: string[];
  /** May stand before a command, and after one ("can we", "for a second"). */
  before: Pattern[];
  after: Pattern[];
}

export interface NumberWords {
  /** Value of each word: zero to nineteen, the tens, and others under a hundred that are one word. */
  words: Record<string, number>;
  /** After a count of hundreds ("two hundred"). */
  hundred: string[];
  /** Whole hundreds in one word; of two for one value, the last stands before more ("ciento"). */
  hundreds: Record<string, number>;
  /** Between a hundred and the rest, and before the last of a list ("and"). */
  and: string[];
  /** Between tens and units ("treinta y cinco"). */
  tensAnd: string[];
  /** The form of a number's last word before what is counted ("uno": "un"). */
  beforeNoun: Record<string, string>;
  /** Zero inside a number ("one oh five"). */
  zeroInside: string[];
  degrees: Pattern[];
  /** After a pain number ("out of ten"). */
  ofTen: Pattern[];
  /** After a number these make it a count, not an angle ("reps"). */
  counted: Pattern[];
  /** Before a number these make it a count, not an angle ("rep", "last"). */
  counting: Pattern[];
  /** Before a number it tells of which repetition ("on six"). */
  onRep: string[];
  /** After a number a place of the body makes it pain ("a two in the knee"). */
  inPlace: string[];
  /** Before a number these make it less than nothing, so that it is asked about ("minus"). */
  minus: string[];
  /** Between two numbers of which neither is sure ("or"). */
  between: Pattern[];
  /** Words heard for a number where nothing but a number is wanted ("for"). */
  soundsLike: Record<string, number>;
}

/** The finding of the other side again: alone, before a side, or after one. */
export interface SameWays extends Ways {
  /** Between these words and a side ("on the"), and between a side and these words ("is"). */
  beforeSide: Ways;
  afterSide: Ways;
  readback: Record<'alone' | 'left' | 'right' | 'both', string>;
}

/** Every reply once: its meaning, the ways to say it, what it is easily mistaken for. */
export interface Vocabulary {
  language: string;
  numbers: NumberWords;
  sides: Record<'left' | 'right' | 'both', ReadableWays>;
  /** Where a word stands that says which: "right knee", "sharp pain" or "rodilla derecha". */
  adjectivesStand: 'before' | 'after';
  /** Words of a side that also tell what something did ("the bar left the legs"). */
  sideVerbs: string[];
  same: SameWays;
  results: Record<ResultWord, ReadableWays>;
  parts: Record<string, Pattern[]>;
  states: Record<string, StateWords>;
  faults: FaultWords[];
  pain: {
    readback: string;
    words: Ways;
    none: Ways;
    /** No pain, where its number was asked ("none"). */
    nothing: Pattern[];
    /** As said at `pain/kind`; `before` names kind and pain in one breath, anywhere. */
    kinds: Record<PainKind, ReadableWays & { before: Pattern[] }>;
    /** Pain of a kind in one word ("pinch"). */
    sharpWords: Ways;
    /** Not pain, though it sounds like it ("tight", "stretch"). */
    notPain: Pattern[];
    /** Places that make a side belong to the pain ("knee"). */
    places: Pattern[];
  };
  redFlags: Record<RedFlag, ReadableWays>;
  commands: Record<SpokenCommand, ReadableWays>;
  /** Single words of "stop" that ask to stop among a few words that are not understood. */
  stopWords: string[];
  /** Between a "no" and what is right instead ("no, it was the right"). */
  afterNo: string[];
  /** Words that name several commands: asked about. */
  unclearCommands: { command: SpokenCommand; words: Pattern[] }[];
  goTo: {
    /** After `wholeNames` only a whole name counts: they are said to athletes too ("do"). */
    openers: Ways & { wholeNames: Pattern[] };
    readback: string;
    /** Read back where the name fits several. */
    which: string;
    /** Left out at the start of a name ("the"). */
    articles: string[];
    /** Words of a name that say nothing of which one is meant ("with"). */
    joiners: string[];
    /** Where a name says what kind of drill it is: "the goblet squat", "la bisagra al banco". */
    kindStands: 'first' | 'last';
    /** Ids are words of this language, so that they name their drill or check too. */
    idsAreNames: boolean;
    /** Other names of drills and checks, by id. */
    names: Record<string, Pattern[]>;
  };
  /** Which of two readings that were offered together. */
  either: Record<Choice, ReadableWays>;
  /** Read back where left and right were told of, and which is which cannot be told. */
  oneSide: string;
  /** Read back where a fault was denied and nothing else said. */
  noFault: string;
  /** Alone at an open question they ask whether it is a pass ("good"). */
  mayPass: Pattern[];
  /** Read back after what contradicts itself. */
  doubts: { notAPass: string; underTheLine: string };
  talk: Talk;
  loosely: LooseWords;
  /** An unknown word that ends so tells how something was done ("technically"). */
  adverbEndings: string[];
  /** Word endings that do not change the meaning; longest first. */
  endings: string[];
  /** What stands in place of an ending of two letters and more, besides nothing ("e" of "driving"). */
  endingsFor: string[];
  /** A letter is doubled before an ending ("dropping"). */
  doublesLetters: boolean;
  /** A small word that stands in for any other where cues are tried on the ear. */
  plainWord: string;
  /** Near-homophones: the word heard and the word meant. */
  soundsLike: Record<string, string>;
}

/** The faults of a vocabulary as the rest of the domain knows them, in file order. */
export function faultsOf(vocabulary: Vocabulary): Record<FaultId, Fault> {
  return Object.fromEntries(
    vocabulary.faults.map(({ id, kind, areas, readback }) => [id, { id, kind, areas, readback }]),
  );
}
