import { AREAS } from '../../domain/areas';
import { RefusedHandover } from '../../domain/handover/refused';
import { joining, startOf, type HomeworkReport } from '../../domain/handover/returning';
import { canonicalJson } from '../../domain/keeping/canonical';
import type { Entry } from '../../domain/log';
import { isInvented } from '../../records/heads';
import type { CameBack, HomeworkState } from '../../screens/homework/state';
import type { SeatStore } from '../../screens/seat';
import type { Parts } from '../parts';
import { notKept } from '../people/notKept';
import { visitOf } from '../people/reading';
import { REHEARSAL } from '../unfinished';

const NOTHING = 'There is nothing to bring in any more. Open the link or the file again.';

/** On the coach's device: what came of homework, looked at and joined to the record. */
export function createComingBack({
  parts: { book, people, records },
  store,
  changed,
}: {
  parts: Pick<Parts, 'book' | 'people' | 'records'>;
  store: SeatStore;
  changed: () => Promise<void>;
}) {
  let looked: HomeworkReport | null = null;
  const stage = (to: HomeworkState['stage']) =>
    store.patch({ homework: { ...store.state().homework, stage: to } });

  /** What of a session is in the record; throws RefusedHandover where something else is. */
  async function hereOf(report: HomeworkReport, at: number): Promise<Entry[]> {
    const { session, entries } = report.sessions[at] ?? { session: '', entries: [] };
    const place = `sessions[${at}]`;
    if (isInvented(session) || session.startsWith(REHEARSAL)) {
      throw new RefusedHandover('report', `${place}.session`, 'nobody real was asked in it.');
    }
    const here = await records.read(session);
    const known = startOf(here);
    if (here.length > 0 && known?.homework?.handover.id !== report.handover) {
      throw new RefusedHandover(
        'report',
        `${place}.session`,
        'it has the name of another session.',
      );
    }
    const byId = new Map(here.map((entry) => [entry.id, entry]));
    entries.forEach((entry, index) => {
      const own = byId.get(entry.id);
      const isSame = own === undefined || sameBut(own, entry);
      if (!isSame) {
        const where = `${place}.entries[${index}]`;
        throw new RefusedHandover('report', where, 'it is not what came before under its name.');
      }
    });
    return here;
  }

  /** Whose it is was written here, as it was brought in. */
  const sameBut = (own: Entry, sent: Entry): boolean =>
    canonicalJson({ ...own, person: undefined }) === canonicalJson({ ...sent, person: undefined });

  async function show(report: HomeworkReport): Promise<void> {
    const sessions: CameBack[] = [];
    for (const [at, { session, entries }] of report.sessions.entries()) {
      const here = new Set((await hereOf(report, at)).map(({ id }) => id));
      const start = startOf(entries);
      if (start === undefined) continue;
      mustBeReadable(session, entries, at);
      const areas = AREAS.filter((area) =>
        start.homework?.tasks.some((task) => task.area === area),
      );
      const isHere = entries.every(({ id }) => here.has(id));
      sessions.push({ session, startedAt: start.startedAt, areas, isHere });
    }
    const whose = (await people.all()).find(({ handovers }) =>
      handovers?.includes(report.handover),
    );
    looked = report;
    stage({ at: 'report', sessions, person: whose?.id ?? null });
  }

  /** What no visit could be made of is not taken: it would stand there and never open. */
  function mustBeReadable(session: string, entries: Entry[], at: number): void {
    const start = startOf(entries);
    if (start === undefined || start.language !== book.language) return;
    const { routine, startedAt } = start;
    const reason = entries.find((entry) => entry.type === 'ended')?.reason ?? null;
    const head = { session, routine, startedAt, ended: reason, person: null };
    try {
      visitOf(book, head, entries, null);
    } catch {
      const why = 'it does not fit the drills and checks of this page.';
      throw new RefusedHandover('report', `sessions[${at}].entries`, why);
    }
  }

  async function join(person: string | null): Promise<string | null> {
    if (looked === null) return NOTHING;
    const report = looked;
    try {
      const here = new Set<string>();
      let added = 0;
      for (const [at, { entries }] of report.sessions.entries()) {
        for (const { id } of await hereOf(report, at)) here.add(id);
        added += entries.some(({ id }) => !here.has(id)) ? 1 : 0;
      }
      await records.addAll(joining(report, person).filter(({ id }) => !here.has(id)));
      looked = null;
      await changed();
      stage({ at: 'joined', added, person });
      return null;
    } catch (error) {
      return error instanceof RefusedHandover ? error.message : notKept(error);
    }
  }

  return { show, join };
}
