import { crowds, MOST_AT_A_STATION, type Misfit } from '../../domain/warmUp/equipping';
import type { Needed, WarmUp } from '../../domain/warmUp/warmUp';
import type { CueBook } from '../../domain/script';

/** A number as people write one, with point or comma; NaN where it is none. */
export const typedNumber = (text: string): number =>
  /^\d+([.,]\d+)?$/.test(text.trim()) ? Number(text.trim().replace(',', '.')) : NaN;

/** As a heading. */
export const capitalised = (words: string): string =>
  words.replace(/^./u, (letter) => letter.toUpperCase());

/** "9 minutes", "8.5 minutes". */
export const minutesOf = (seconds: number): string => {
  const minutes = Math.round(seconds / 30) / 2;
  return `${minutes} ${minutes === 1 ? 'minute' : 'minutes'}`;
};

/** "9 minutes 12 seconds", to the second. */
export function lengthOf(seconds: number): string {
  const whole = Math.round(seconds);
  const counted = (number: number, unit: string) =>
    number === 0 ? [] : [`${number} ${unit}${number === 1 ? '' : 's'}`];
  return [...counted(Math.floor(whole / 60), 'minute'), ...counted(whole % 60, 'second')].join(' ');
}

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

/** "12 people at 4 stations: 3 at each." */
export const stationsWords = (warmUp: WarmUp, people: number): string[] =>
  crowds(warmUp, people).map(
    ({ stations, atOnce }) =>
      `${people} people at ${stations} ${stations === 1 ? 'station' : 'stations'}: ${atOnce === people / stations ? '' : 'up to '}${atOnce} at each.`,
  );

/** Why the stations of a part do not fit the group, and what to do. */
export const misfitWords = ({ stations, atOnce, what }: Misfit, people: number): string =>
  what === 'too-few-people'
    ? `There are more stations (${stations}) than people (${people}): some stand empty each turn. Take stations out.`
    : `${atOnce} at one station are more than one leader sees to: ${MOST_AT_A_STATION} at most. Make it ${Math.ceil(people / MOST_AT_A_STATION)} stations, or two groups.`;

/** A whole number of minutes for the warm-up to end after, or what is wrong; null: as written. */
export function minutesFrom(
  text: string,
  { leastSeconds, mostSeconds }: { leastSeconds: number; mostSeconds: number },
): { minutes: number | null } | { wrong: string } {
  if (text.trim() === '') return { minutes: null };
  const minutes = typedNumber(text);
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
  const people = typedNumber(text);
  return Number.isInteger(people) && people >= least && people <= most
    ? { people }
    : { wrong: `Write ${least} to ${most} people.` };
}
