import type { Grammar } from '../domain/hearing/grammar';
import { UNFITTED, type CoachEar } from './coach/coachEar';
import { fittedReader } from './coach/fittedReader';
import { freeRowOf } from './coach/rows';
import {
  ACTS_FROM,
  confidenceOf,
  evidenceIn,
  HEARD_FROM,
  rivalOf,
  type Evidence,
} from './confidence';
import { decode, type Decoded } from './decoding';
import type { Lexicon } from './lexicon';
import { followingOf, type Following } from './meaning';
import { networkOf, type Network } from './network';
import type { PhoneReader } from './phoneReader';
import { ROW_SECONDS, type Posteriors } from './posteriors';
import { HEARD_RATE } from './resampling';
import { besideEachOther, decodeTogether } from './together';

/** Words that were heard and how far to believe them, 0 to 1 (see confidence.ts). */
export interface HeardWords {
  text: string;
  confidence: number;
  /** The best words of another meaning, where they fit almost as well. */
  other?: string;
  /** What else the grammar lets follow. */
  following: Following;
  /** Sound from the first phone of these words to the last, and after it. */
  spokenSeconds: number;
  silenceSeconds: number;
  /** The phones that were heard, bound by no grammar. */
  phones?: string[];
}

/** What one look at sound has found. */
export interface Look {
  heard: HeardWords | null;
  /**
   * The latest talk of anybody, with no silence of 0.65 s in it: how long before
   * the end of the sound it began and ended.
   */
  talk: { beganSeconds: number; endedSeconds: number } | null;
}

/** How sound is looked at. */
export interface LookHow {
  /** It ends while somebody speaks. */
  breaksOff?: boolean;
  /** Where it is in doubt it is not looked at once more: what is urgent does not wait for that. */
  once?: boolean;
}

/** Turns sound into the words of a grammar, on this device. */
export interface Recogniser {
  /**
   * The best utterance of the grammar for 16 kHz mono sound, or null where nothing in it could be
   * one.
   */
  hear(samples16k: Float32Array, grammar: Grammar, lexicon: Lexicon): Promise<HeardWords | null>;
  /** The same, and when somebody talked. */
  look(samples16k: Float32Array, grammar: Grammar, lexicon: Lexicon, how?: LookHow): Promise<Look>;
  /** The same with all that it was judged by; for tuning. */
  weigh(samples16k: Float32Array, grammar: Grammar, lexicon: Lexicon): Promise<Weighed | null>;
}

export interface Weighed {
  decoded: Decoded;
  posteriors: Posteriors;
  evidence: Evidence;
  confidence: number;
}

/** Less sound than this holds no word. */
const SHORTEST_SECONDS = 0.12;
/** More is no reply. */
export const LONGEST_SECONDS = 12;
/** Sound is brought to this peak, which the head was trained around. */
const PEAK = 0.5;
/** Below this peak there is no sound, only the converter's own noise. */
const SILENT_PEAK = 5e-4;

/** Another meaning this near, in natural logarithms, is handed on beside the best; further behind it was hardly ever. */
const CLOSE = 3;

/** Below this a second look has never helped; from ACTS_FROM none is needed. */
const HOPELESS = 0.02;
/** Whether the sound is looked at once more. */
export const isLookedAtAgain = (confidence: number): boolean =>
  confidence >= HOPELESS && confidence < ACTS_FROM;
/** 4.5 steps of the encoder (384 samples), less than the shortest sound. */
const SHIFT_SAMPLES = 1728;

/**
 * Put after sound that breaks off: the heads now and then take it for a crowd, of which they hear
 * no phone at all. Six rows of next to nothing.
 */
const END = Float32Array.from({ length: 2304 }, (_, at) => 1e-4 * Math.sin(at * at));
const END_SECONDS = END.length / HEARD_RATE;

export interface OpenRecogniser extends Recogniser {
  /** Sound that is heard from now on is heard as this coach's. */
  fit(coach: CoachEar): void;
}

/**
 * Hears with this reader. `looks`: two where one is in doubt, or never more than one. `breathe`
 * lets in what goes before the second.
 */
export function createRecogniser(
  reader: PhoneReader,
  looks: 1 | 2 = 2,
  breathe?: () => Promise<void>,
): OpenRecogniser {
  let fitting = UNFITTED;
  const networks = new WeakMap<Lexicon, WeakMap<Grammar, Network>>();

  const networkFor = (grammar: Grammar, lexicon: Lexicon) => {
    const said = networks.get(lexicon) ?? new WeakMap<Grammar, Network>();
    networks.set(lexicon, said);
    const network = said.get(grammar) ?? networkOf(grammar, lexicon);
    said.set(grammar, network);
    return network;
  };

  const readOnce = async (
    reader: PhoneReader,
    samples: Float32Array,
    grammar: Grammar,
    lexicon: Lexicon,
  ): Promise<Weighed | null> => {
    const network = networkFor(grammar, lexicon);
    const own = await reader.read(samples);
    const heads = reader.beside && besideEachOther(own, await reader.beside.read(samples));
    const posteriors = heads?.[0] ?? own;
    const decoded = heads ? decodeTogether(network, lexicon, heads) : decode(network, posteriors);
    if (decoded === null) return null;
    const evidence = evidenceIn(decoded, grammar);
    return { decoded, posteriors, evidence, confidence: confidenceOf(evidence, reader.belief) };
  };

  const weigh = async (
    samples16k: Float32Array,
    grammar: Grammar,
    lexicon: Lexicon,
    { breaksOff = false, once = false }: LookHow = {},
  ): Promise<Weighed | null> => {
    networkFor(grammar, lexicon);
    const level = levelled(samples16k);
    if (level === null) return null;
    const samples = breaksOff ? withEnd(level) : level;
    const fitted = fittedReader(reader, fitting);
    const first = await readOnce(fitted, samples, grammar, lexicon);
    if (first === null || looks === 1 || once || !isLookedAtAgain(first.confidence)) return first;
    await breathe?.();
    const second = await readOnce(fitted, shifted(samples), grammar, lexicon);
    return second !== null && second.confidence > first.confidence ? second : first;
  };

  const look: Recogniser['look'] = async (samples16k, grammar, lexicon, how = {}) => {
    const weighed = await weigh(samples16k, grammar, lexicon, how);
    if (weighed === null) return { heard: null, talk: null };
    const { talk } = weighed.posteriors;
    const heard = heardIn(weighed, grammar);
    const before = (seconds: number) => Math.max(0, seconds - (how.breaksOff ? END_SECONDS : 0));
    return {
      heard: heard && { ...heard, silenceSeconds: before(heard.silenceSeconds) },
      talk: talk && {
        beganSeconds: before(talk.began * ROW_SECONDS),
        endedSeconds: before(talk.ended * ROW_SECONDS),
      },
    };
  };

  return {
    weigh: (samples16k, grammar, lexicon) => weigh(samples16k, grammar, lexicon),
    look,
    fit: (coach) => {
      fitting = coach;
    },
    hear: async (...sound) => (await look(...sound)).heard,
  };
}

function heardIn({ decoded, posteriors, evidence, confidence }: Weighed, grammar: Grammar) {
  if (confidence < HEARD_FROM) return null;
  const { text, firstRow, lastRow } = decoded;
  const rival = evidence.lead <= CLOSE ? rivalOf(decoded, grammar) : undefined;
  return {
    text,
    confidence,
    ...(rival && { other: rival.text }),
    following: followingOf(grammar, text),
    spokenSeconds: (lastRow - firstRow) * ROW_SECONDS,
    silenceSeconds: (posteriors.frames - 1 - lastRow) * ROW_SECONDS,
    phones: freeRowOf(posteriors),
  };
}

/**
 * The sound a little later, its own beginning mirrored before it: the encoder's steps then fall
 * elsewhere, and what one look missed another may hear.
 */
export function shifted(samples: Float32Array): Float32Array {
  const later = new Float32Array(samples.length + SHIFT_SAMPLES);
  later.set(samples, SHIFT_SAMPLES);
  for (let at = 0; at < SHIFT_SAMPLES; at += 1) later[at] = samples[SHIFT_SAMPLES - at] as number;
  return later;
}

function withEnd(samples: Float32Array): Float32Array {
  const ended = new Float32Array(samples.length + END.length);
  ended.set(samples);
  ended.set(END, samples.length);
  return ended;
}

/** A copy at the loudness that the head knows; null where it is too short, too long or silent. */
function levelled(samples: Float32Array): Float32Array | null {
  const seconds = samples.length / HEARD_RATE;
  if (seconds < SHORTEST_SECONDS || seconds > LONGEST_SECONDS) return null;
  let peak = 0;
  for (let at = 0; at < samples.length; at += 1)
    peak = Math.max(peak, Math.abs(samples[at] as number));
  if (!(peak >= SILENT_PEAK)) return null;
  const level = new Float32Array(samples.length);
  for (let at = 0; at < samples.length; at += 1)
    level[at] = ((samples[at] as number) * PEAK) / peak;
  return level;
}
