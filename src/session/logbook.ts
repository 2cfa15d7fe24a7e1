import type { Entry, Fact } from '../domain/log';

/** Where entries of one session get their names and times. */
export interface Logbook {
  session: string;
  /** Tells two devices of one session apart. */
  device: string;
  startedAtMilliseconds: number;
}

/** The highest number of the log: where two devices went on with it, not always that of its end. */
const lastNumber = (log: readonly Entry[]): number =>
  log.reduce((most, { id }) => Math.max(most, Number(id.slice(id.lastIndexOf(':') + 1))), 0);

/**
 * The facts as the next entries of the log: ids `session:device:sequence`, times in seconds since
 * the start, rounded to a millisecond and never falling even where the wall clock is set back.
 */
export function entriesFor(
  { session, device, startedAtMilliseconds }: Logbook,
  log: readonly Entry[],
  facts: readonly Fact[],
  nowMilliseconds: number,
): Entry[] {
  const last = log.at(-1);
  const atSeconds = Math.max(
    last?.atSeconds ?? 0,
    Math.round(nowMilliseconds - startedAtMilliseconds) / 1000,
  );
  const from = lastNumber(log) + 1;
  return facts.map((fact, index) => ({
    ...fact,
    id: `${session}:${device}:${from + index}`,
    atSeconds,
  }));
}
