import type { PainKind } from '../findings';

/** Pain of a kind that ends a drill; one that stayed unanswered counts as the worse. */
export const isNew = (kind: PainKind | 'unanswered' | null): boolean =>
  kind === 'new' || kind === 'sharp' || kind === 'unanswered';
