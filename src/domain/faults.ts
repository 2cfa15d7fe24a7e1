import type { Area } from './areas';

/** A named loss of position or range, such as `ribs-flared`; the list is data (vocabulary.yaml). */
export type FaultId = string;

/** `position`: the result is `lost`; `range`: the result is `short`. */
export type FaultKind = 'position' | 'range';

/** What the domain must know of a fault besides its words. */
export interface Fault {
  id: FaultId;
  kind: FaultKind;
  areas: Area[];
  /** The fewest words that still name it when it is read back ("knees forward"). */
  readback: string;
}
