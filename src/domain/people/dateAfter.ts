const MILLISECONDS_A_DAY = 24 * 3600 * 1000;

/**
 * The calendar date that many days after a moment, on the calendar of the place it was written in:
 * `dateAfter('2031-02-28T23:30:00-08:00', 1)` is 2031-03-01. Null where `moment` is no ISO 8601
 * date. Days are counted on the calendar, so no change of clocks can move it.
 */
export function dateAfter(moment: string, days: number): string | null {
  const written = /^(\d{4})-(\d{2})-(\d{2})/.exec(moment);
  if (written === null) return null;
  const [year = 0, month = 0, day = 0] = written.slice(1).map(Number);
  const date = new Date(Date.UTC(year, month - 1, day) + days * MILLISECONDS_A_DAY);
  return date.toISOString().slice(0, 10);
}
