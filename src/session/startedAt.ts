import type { Entry } from '../domain/log';

/**
 * From when a session counts its seconds, in milliseconds of the clock of now. Where the clock was
 * set back while nobody ran it, its last entry counts as now: or its time would stand, and an open
 * question wait, until the clock had caught up.
 */
export function countsFrom(startedAt: string, log: readonly Entry[], now: number): number {
  const lastSeconds = log.at(-1)?.atSeconds ?? 0;
  return Math.min(Date.parse(startedAt), now - lastSeconds * 1000);
}

/**
 * A moment as ISO 8601 on the calendar of a place, so that "in a week" is counted from the day it
 * was there. `utcOffsetMinutes` is east of UTC: +60 in Berlin's winter, -480 in San Francisco's.
 */
export function momentAt(milliseconds: number, utcOffsetMinutes: number): string {
  const there = new Date(milliseconds + utcOffsetMinutes * 60_000).toISOString();
  if (utcOffsetMinutes === 0) return there;
  const size = Math.abs(utcOffsetMinutes);
  const two = (number: number) => String(number).padStart(2, '0');
  const offset = `${two(Math.floor(size / 60))}:${two(size % 60)}`;
  return there.replace('Z', `${utcOffsetMinutes < 0 ? '-' : '+'}${offset}`);
}
