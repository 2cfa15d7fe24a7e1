/** Two limits, both inside. */
export interface Range {
  from: number;
  to: number;
}

/** Whether a value lies in a range; false for anything that is no finite number, too. */
export const within = (value: number, { from, to }: Range): boolean => value >= from && value <= to;
