import type { Decoded } from './decoding';
import type { Posteriors } from './posteriors';

/** Weights of a logistic curve over how well a reply fits; see tests/ear/calibrating.ts. */
export interface Belief {
  offset: number;
  /** Of what the grammar cost against the free row of phones, a phone. */
  fitPerPhone: number;
  /** Of 1 / phones: other talk sounds like a short reply more easily than like a long one. */
  inversePhones: number;
  /** Of the share of phones heard too many or too few. */
  phonesAmiss: number;
}

/** Fitted so that one piece of other talk in a hundred reaches ACTS_FROM. */
export const BELIEF: Belief = {
  offset: 2.83,
  fitPerPhone: 3.07,
  inversePhones: -1.65,
  phonesAmiss: -0.84,
};

/** From here a reply may be acted on; below ASKS_FROM it is other talk. */
export const ACTS_FROM = 0.5;
export const ASKS_FROM = 0.25;
/** Below this nothing was said that could be a reply. */
export const HEARD_FROM = 0.05;

/** How far a reply is to be believed, 0 to 1. */
export function confidenceOf(
  decoded: Pick<Decoded, 'fitPerPhone' | 'phones'>,
  posteriors: Pick<Posteriors, 'freePhones'>,
  belief = BELIEF,
): number {
  const sum = evidenceOf(decoded, posteriors).reduce(
    (sum, { weight, value }) => sum + belief[weight] * value,
    belief.offset,
  );
  return 1 / (1 + Math.exp(-sum));
}

/** What the weights are multiplied with. */
export function evidenceOf(
  { fitPerPhone, phones }: Pick<Decoded, 'fitPerPhone' | 'phones'>,
  { freePhones }: Pick<Posteriors, 'freePhones'>,
): { weight: Exclude<keyof Belief, 'offset'>; value: number }[] {
  return [
    { weight: 'fitPerPhone', value: Math.max(-6, fitPerPhone) },
    { weight: 'inversePhones', value: 1 / phones },
    { weight: 'phonesAmiss', value: Math.min(2, Math.abs(freePhones / phones - 1)) },
  ];
}
