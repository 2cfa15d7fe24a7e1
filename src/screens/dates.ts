/** "Monday, 12 January 2026": a calendar date is the same in every time zone. */
export const dayInWords = (date: string): string => written(date, 'full');

/** "12 January 2026". */
export const dateInWords = (date: string): string => written(date, 'long');

/** The date as it is, where it is none. */
function written(date: string, dateStyle: 'full' | 'long'): string {
  const day = new Date(date.slice(0, 10));
  return Number.isNaN(day.getTime())
    ? date
    : new Intl.DateTimeFormat('en-GB', { dateStyle, timeZone: 'UTC' }).format(day);
}

const two = (number: number): string => String(number).padStart(2, '0');

/** Seconds of a session as a clock: "3:07". */
export const clockOf = (seconds: number): string =>
  `${Math.floor(seconds / 60)}:${two(Math.floor(seconds % 60))}`;
