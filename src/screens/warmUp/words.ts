import type { Needed } from '../../domain/warmUp/warmUp';
import type { CueBook } from '../../domain/script';

/** As a heading. */
export const capitalised = (words: string): string =>
  words.replace(/^./u, (letter) => letter.toUpperCase());

/** "9 minutes", "8.5 minutes". */
export const minutesOf = (seconds: number): string => {
  const minutes = Math.round(seconds / 30) / 2;
  return `${minutes} ${minutes === 1 ? 'minute' : 'minutes'}`;
};

/** Wall time of a day, as clocks show it. */
export const timeOf = (milliseconds: number): string =>
  new Date(milliseconds).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });

/** "9 times a light stick", or "at station 3: 3 times a mat". */
export const neededWords = (book: CueBook, { equipment, count, station }: Needed): string => {
  const thing = book.equipment[equipment]?.name ?? equipment;
  const orElse = book.equipment[equipment]?.orElse;
  const what = `${count} × ${thing}${orElse === undefined ? '' : ` (or ${orElse})`}`;
  return station === null ? what : `Station ${station}: ${what}`;
};

/** A whole number of minutes for the warm-up to end after, or what is wrong; null: as written. */
export function minutesFrom(
  text: string,
  { leastSeconds, mostSeconds }: { leastSeconds: number; mostSeconds: number },
): { minutes: number | null } | { wrong: string } {
  if (text.trim() === '') return { minutes: null };
  const minutes = Number(text.trim().replace(',', '.'));
  const least = Math.ceil(leastSeconds / 60);
  const most = Math.floor(mostSeconds / 60);
  return Number.isFinite(minutes) && minutes >= least && minutes <= most
    ? { minutes }
    : { wrong: `Write ${least} to ${most} minutes, or leave it empty.` };
}

/** People in the group, or what is wrong. */
export function peopleFrom(
  text: string,
  { least, most }: { least: number; most: number },
): { people: number } | { wrong: string } {
  const people = Number(text.trim());
  return Number.isInteger(people) && people >= least && people <= most
    ? { people }
    : { wrong: `Write ${least} to ${most} people.` };
}
