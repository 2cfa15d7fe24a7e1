import type { AreaSince, CheckSince } from '../../domain/reporting/lastVisit';
import type { CueBook } from '../../domain/script';
import { dateInWords } from '../dates';
import type { Visit } from './state';
import { AREA_WORDS, nameOf, OUTCOME_WORDS, SIDE_WORDS, titled } from '../words';

/** This visit beside the one before: areas, checks that stand otherwise, and angles. */
export function Since({ book, since }: { book: CueBook; since: NonNullable<Visit['since']> }) {
  const { before, told } = since;
  const areas = told.areas.filter((area) => area.before !== null && area.now !== null);
  const checks = told.checks.filter((check) => check.before !== check.now || check.told !== null);
  return (
    <section className="card" aria-labelledby="since-title">
      <h2 id="since-title">Since {dateInWords(before.startedAt)}</h2>
      {areas.length === 0 && <p>The visit before had other areas.</p>}
      <ul className="since">
        {areas.map((area) => (
          <li key={area.area}>{areaSince(book, area)}</li>
        ))}
        {checks.map((check) => (
          <li key={`${check.check} ${check.side}`}>{checkSince(book, check)}</li>
        ))}
      </ul>
    </section>
  );
}

function areaSince(book: CueBook, { area, before, now, rungBefore, rungNow }: AreaSince): string {
  const place = (outcome: AreaSince['now'], rung: number | null) => {
    if (outcome === null) return 'not tested';
    const drill = outcome === 'working' ? book.ladders[area]?.rungs[(rung ?? 0) - 1]?.drill : null;
    const at = drill ? ` at the ${nameOf(book, drill)}` : '';
    return `${OUTCOME_WORDS[outcome].toLowerCase()}${at}`;
  };
  const [was, is] = [place(before, rungBefore), place(now, rungNow)];
  return was === is
    ? `${AREA_WORDS[area]}: ${is}, as at the visit before.`
    : `${AREA_WORDS[area]}: ${was} before, ${is} now.`;
}

const STANDS: Record<CheckSince['now'], string> = {
  held: 'held',
  failed: 'did not hold',
  'not-tested': 'not tested',
};

function checkSince(book: CueBook, { check, side, before, now, told }: CheckSince): string {
  const name = titled(nameOf(book, check));
  const where = side === null ? name : `${name}, ${SIDE_WORDS[side].toLowerCase()}`;
  const stood = before === now ? '' : ` ${STANDS[before]} before, ${STANDS[now]} now.`;
  const angle = told === null ? '' : ` ${told.what} ${told.says}`;
  return `${where}:${stood}${angle}`.trim();
}
