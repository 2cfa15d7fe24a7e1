/**
 * Writes public/invented-club/club.json: run `npx tsx src/cli/writeInventedClub.ts` after a rule, a
 * cue, a duration or a visit (`inventedVisits.ts`) changed, and read what it prints.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { leftBy } from '../domain/people/left';
import { inventedClub } from './inventedClub';
import { bookOf } from './verb';

const club = inventedClub(bookOf());
const text = `${JSON.stringify(club)}\n`;
mkdirSync('public/invented-club', { recursive: true });
writeFileSync('public/invented-club/club.json', text);
club.sessions.forEach((session, at) => {
  const { name } = club.people[Math.floor(at / 3)] ?? { name: '' };
  const [started] = session;
  const ended = session.find((entry) => entry.type === 'ended');
  const { areas, newPainAt } = leftBy(session);
  const stands = areas.map(({ area, outcome, rung }) => `${area} ${outcome} ${rung ?? '-'}`);
  const minutes = ((session.at(-1)?.atSeconds ?? 0) / 60).toFixed(0);
  console.log(
    [
      ...[name, started?.type === 'started' ? `${started.startedAt} ${started.routine}` : ''],
      ...[`${minutes} min`, ended?.reason ?? 'never ended', ...stands, ...newPainAt],
    ].join(', '),
  );
});
console.log(`${text.length} bytes, ${gzipSync(text).length} packed`);
