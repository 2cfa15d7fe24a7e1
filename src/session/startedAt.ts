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
