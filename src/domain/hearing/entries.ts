/** What a record holds, with its own keys. */
export const entries = <K extends string, V>(record: Partial<Record<K, V>>): [K, V][] =>
  Object.entries(record) as [K, V][];
