import type { Grammar } from '../domain/hearing/grammar';
import type { Decoded } from './decoding';
import { meaningOf } from './meaning';
import type { Posteriors } from './posteriors';

/** Weights of a logistic curve over how well a reply fits; see tests/training/fitting.ts. */
export interface Belief {
  offset: number;
  /** Of what the grammar cost against the free row of phones, a phone. */
  fitPerPhone: number;
  /** Of what it cost beyond 1, besides. */
  poorFit: number;
  /** Of 1 / phones: other talk sounds like a short reply more easily than like a long one. */
  inversePhones: number;
  /** Of the share of phones heard too many or too few. */
  phonesAmiss: number;
  /** Of the distance to the best reply that means something else. */
  lead: number;
}

/** Fitted on generated speech; the offset a little lower, since people's talk came through. */
export const BELIEF: Belief = {
  offset: -0.7,
  fitPerPhone: 1.57,
  poorFit: 1.12,
  inversePhones: -3,
  phonesAmiss: -3.25,
  lead: 0.96,
};

/** The small reader's is the same: a fit of its own judged the kept clips no better. */
export const SMALL_BELIEF: Belief = BELIEF;

/** From here a reply may be acted on; below ASKS_FROM it is other talk. */
export const ACTS_FROM = 0.5;
export const ASKS_FROM = 0.25;
/** Below this nothing was said that could be a reply. */
export const HEARD_FROM = 0.05;

/** What is judged of one look: numbers of the best path, and of the sound. */
export interface Evidence extends Pick<Decoded, 'fitPerPhone' | 'phones'> {
  freePhones: number;
  /** How far the best reply of another meaning is behind, in natural logarithms. */
  lead: number;
}

export function evidenceIn(
  { fitPerPhone, phones, score, text, others }: Decoded,
  { freePhones }: Pick<Posteriors, 'freePhones'>,
  grammar: Grammar,
): Evidence {
  const meaning = meaningOf(grammar, text);
  const rival = others.find((other) => meaningOf(grammar, other.text) !== meaning);
  return { fitPerPhone, phones, freePhones, lead: rival ? score - rival.score : Infinity };
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
  phones,
  freePhones,
  lead,
}: Evidence): { weight: Exclude<keyof Belief, 'offset'>; value: number }[] {
  return [
    { weight: 'fitPerPhone', value: Math.max(-6, fitPerPhone) },
    { weight: 'poorFit', value: Math.min(0, Math.max(-6, fitPerPhone) + 1) },
    { weight: 'inversePhones', value: 1 / phones },
    { weight: 'phonesAmiss', value: Math.min(2, Math.abs(freePhones / phones - 1)) },
    // Far ahead is no proof of a reply: other talk is often nearest to one by far.
    { weight: 'lead', value: Math.min(5, lead) },
  ];
}
