/**
 * Writes the timelines anew: `npx tsx tests/timelines/write.ts` for all, or with the names of some.
 * Read what changed before you commit it; the tests say only that a timeline is the same as before
 * and that it still means what it should.
 */
import { writeFileSync } from 'node:fs';
import { NAMES, sessionOf, timelinePath } from './sessions';

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !NAMES.some((known) => known === name));
if (unknown.length > 0) {
  console.error(`There is no session ${unknown.join(', ')}. Known: ${NAMES.join(', ')}.`);
  process.exitCode = 1;
} else {
  for (const name of NAMES) {
    if (asked.length > 0 && !asked.includes(name)) continue;
    writeFileSync(timelinePath(name), sessionOf(name).text);
  }
}
