import type { Told } from '../view';

/** When to come again, or why no date is named. */
export const NextVisit = ({ visit }: { visit: Told<'end'>['nextVisit'] }) => (
  <section className="card" aria-labelledby="next-title">
    <h2 id="next-title">Next visit</h2>
    {visit.date !== null && (
      <p className="next-date">
        <time dateTime={visit.date}>{inWords(visit.date)}</time>
      </p>
    )}
    <p>{visit.because}</p>
    {visit.date !== null && <p className="detail">A suggestion; the coach decides.</p>}
  </section>
);

/** "Monday, 12 January 2026": a calendar date is the same in every time zone. */
const inWords = (date: string): string =>
  new Intl.DateTimeFormat('en-GB', { dateStyle: 'full', timeZone: 'UTC' }).format(new Date(date));
