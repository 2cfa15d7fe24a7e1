import type { Decoded } from './decoding';
import type { Posteriors } from './posteriors';

/** How far a reply is to be believed: weights of a logistic curve, fitted on generated speech. */
export interface Belief {
  offset: number;
  fitPerPhone: number;
  freePhonesRatio: number;
  /** Below this nothing was said that could be a reply. */
  heardFrom: number;
}

export const BELIEF: Belief = { offset: 3, fitPerPhone: 2, freePhonesRatio: 0, heardFrom: 0.05 };

/**
 * 0 to 1: from 0.5 a reply may be acted on, from 0.25 it should be asked about, below it is other
 * talk or noise.
 */
export function confidenceOf(decoded: Decoded, posteriors: Posteriors, belief = BELIEF): number {
  const sum =
    belief.offset +
    belief.fitPerPhone * decoded.fitPerPhone +
    belief.freePhonesRatio * Math.abs(posteriors.freePhones / decoded.phones - 1);
  return 1 / (1 + Math.exp(-sum));
}
