/** What is read of, and written to, the record of a visit; it needs the rules, and comes late. */
import { saidFindings } from '../../domain/deciding/corrected';
import { closingFacts, correctionFacts } from '../../domain/deciding/correction';
import type { Entry, Fact } from '../../domain/log';
import { unseenIn } from '../../domain/reporting/unseen';
import type { CueBook } from '../../domain/script';
import type { Note } from '../../ports';
import type { VisitRecord } from '../../screens/finished/state';
import { entriesFor } from '../../session/logbook';

export { closingFacts, correctionFacts };

/** What may be corrected and noted upon. Throws where the log has no start. */
export function recordOf(book: CueBook, log: readonly Entry[], notes: Note[] | null): VisitRecord {
  const { settings, angleTool = 'eye' } = startOf(log);
  return {
    said: saidFindings(log),
    settings,
    angleTool,
    unseen: unseenIn(book, log),
    isCutOff: !log.some(({ type }) => type === 'ended'),
    notes,
  };
}

/** Facts as entries of a session that is over. `writer` is new each time, so that no two meet. */
export const entriesAfter = (
  session: string,
  writer: string,
  log: readonly Entry[],
  facts: readonly Fact[],
  nowMilliseconds: number,
): Entry[] =>
  entriesFor(
    { session, device: writer, startedAtMilliseconds: Date.parse(startOf(log).startedAt) },
    log,
    facts,
    nowMilliseconds,
  );

function startOf(log: readonly Entry[]) {
  const started = log.find((entry) => entry.type === 'started');
  if (started === undefined) throw new Error('This log has no start.');
  return started;
}
