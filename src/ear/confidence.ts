import type { Grammar } from '../domain/hearing/grammar';
import type { Decoded } from './decoding';
import { meaningOf } from './meaning';

/** Weights of a logistic curve over how well a reply fits; see tests/training/fitting.ts. */
export interface Belief {
  offset: number;
  /** Of what the grammar cost against the free row of phones, a phone. */
  fitPerPhone: number;
  /** Of how likely the head finds the phones where they lie, a phone. */
  surePerPhone: number;
  /** Of the number of phones: other talk sounds like a short reply more easily than like a long one. */
  phones: number;
  /** Of all that the grammar cost beyond UNEXPLAINED_FROM: a whole word that no reply explains. */
  unexplained: number;
  /** Of the distance to the best reply that means something else, as its logarithm. */
  lead: number;
}

/** One right reply in a hundred cost more, most of those in talk 3 dB below. */
const UNEXPLAINED_FROM = 12;
/** Held by hand: the clips of the fit hold whole replies, or none. */
export const UNEXPLAINED = 0.3;

/**
 * Fitted on generated speech and people's words that are no replies (public/ear/MODEL.md). Of the
 * strong reader by itself.
 */
export const BELIEF: Belief = {
  offset: -5.25,
  fitPerPhone: 0.97,
  surePerPhone: 2.51,
  phones: 0.52,
  unexplained: UNEXPLAINED,
  lead: 1.77,
};

/** The small reader's, fitted on the same sound. */
export const SMALL_BELIEF: Belief = {
  offset: -4.7,
  fitPerPhone: 1.11,
  surePerPhone: 2.81,
  phones: 0.59,
  unexplained: UNEXPLAINED,
  lead: 1.3,
};

/** Of both readers together, fitted on the same sound. */
export const BOTH_BELIEF: Belief = {
  offset: -4.9,
  fitPerPhone: 0.99,
  surePerPhone: 2.53,
  phones: 0.58,
  unexplained: UNEXPLAINED,
  lead: 1.58,
};

/** From here a reply may be acted on; below ASKS_FROM it is other talk. */
export const ACTS_FROM = 0.5;
export const ASKS_FROM = 0.25;
/** A stop word acts at the lowest bar. */
export const HALTS_FROM = 0.2;
/** Below this nothing was said that could be a reply. */
export const HEARD_FROM = 0.05;

/** What is judged of one look: numbers of the best path, natural logarithms, and of the sound. */
export interface Evidence {
  fitPerPhone: number;
  surePerPhone: number;
  phones: number;
  /** How far the best reply of another meaning is behind. */
  lead: number;
}

/** What the best path is judged by. */
export function evidenceIn(decoded: Decoded, grammar: Grammar): Evidence {
  const { fitPerPhone, score } = decoded;
  const sure = decoded.sure.flat();
  const rival = rivalOf(decoded, grammar);
  return {
    fitPerPhone,
    surePerPhone: sure.reduce((sum, each) => sum + each, 0) / sure.length,
    phones: sure.length,
    lead: rival ? score - rival.score : Infinity,
  };
}

/** The best other words that mean something else. */
export function rivalOf(
  { text, others }: Decoded,
  grammar: Grammar,
): Decoded['others'][number] | undefined {
  const meaning = meaningOf(grammar, text);
  return others.find((other) => meaningOf(grammar, other.text) !== meaning);
}

/** How far a reply is to be believed, 0 to 1. */
export function confidenceOf(evidence: Evidence, belief = BELIEF): number {
  const sum = weighedBy(evidence).reduce(
    (sum, { weight, value }) => sum + belief[weight] * value,
    belief.offset,
  );
  return 1 / (1 + Math.exp(-sum));
}

/** What the weights are multiplied with. */
export function weighedBy({
  fitPerPhone,
  surePerPhone,
  phones,
  lead,
}: Evidence): { weight: Exclude<keyof Belief, 'offset'>; value: number }[] {
  return [
    { weight: 'fitPerPhone', value: Math.max(-6, fitPerPhone) },
    { weight: 'surePerPhone', value: Math.max(-4, surePerPhone) },
    { weight: 'phones', value: Math.min(10, phones) },
    { weight: 'unexplained', value: Math.min(0, phones * fitPerPhone + UNEXPLAINED_FROM) },
    // Far ahead is no proof of a reply: other talk is often nearest to one by far.
    { weight: 'lead', value: Math.log1p(Math.min(20, lead)) },
  ];
}
