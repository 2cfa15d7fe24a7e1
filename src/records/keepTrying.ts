import type { Entry } from '../domain/log';
import type { Clock, RecordProblem, Records } from '../ports';
import { headsOf, isInvented, newestFirst, outcomesOf, sessionOf } from './heads';
import { problem, RecordError } from './problems';

/** A write that has not answered by now counts as failed; a disk write takes some ms. */
const WRITE_WAIT_MS = 3000;
/** Waits between tries double from the first to the longest. */
const FIRST_RETRY_MS = 1000;
const LONGEST_RETRY_MS = 30_000;

interface Waiting {
  entry: Entry;
  /** Called once; null when it has been. */
  done: ((problem: RecordProblem | null) => void) | null;
}

/** Records that hold what was appended while the page is open. */
export interface HoldingRecords extends Records {
  /** All of it, stored or not, in its order: what a saved record must not lack. Left out by records that hold nothing. */
  held?: () => Entry[];
  /** Whether some of it is not stored. */
  isHolding?: () => boolean;
}

/**
 * Records that never lose an entry while the page is open. An entry that cannot be written is
 * reported once by `done(problem)`, stays in memory and is tried again until it is stored: after
 * 1 s, doubling to 30 s, and at each further append. Order is kept: what comes after a failed
 * entry waits behind it and is reported with the same problem; `addAll` rejects where the session
 * has something that waits. Reading includes what waits. Where something else is stored under the id
 * of an entry, no try would end otherwise: what comes of that session from then on is held, and said
 * to be so, and other sessions go on.
 */
export const keepTrying = (records: Records, clock: Clock): HoldingRecords => {
  const waiting: Waiting[] = [];
  const kept: Entry[] = [];
  /** Sessions of which something else is stored than what the page holds. */
  const apart = new Set<string>();
  let retryMilliseconds = FIRST_RETRY_MS;
  let retry: unknown = null;
  let writing = false;
  let lastProblem: RecordProblem | null = null;

  const answer = (one: Waiting, found: RecordProblem | null) => {
    const { done } = one;
    one.done = null;
    done?.(found);
  };

  /** Held from now on, and not tried. */
  const setApart = (session: string, found: RecordProblem) => {
    apart.add(session);
    const those = waiting.filter(({ entry }) => sessionOf(entry.id) === session);
    const others = waiting.filter((one) => !those.includes(one));
    waiting.splice(0, waiting.length, ...others);
    for (const one of those) answer(one, found);
    write();
  };

  const failed = (found: RecordProblem) => {
    lastProblem = found;
    retry = clock.setTimeout(() => {
      retry = null;
      write();
    }, retryMilliseconds);
    retryMilliseconds = Math.min(retryMilliseconds * 2, LONGEST_RETRY_MS);
    for (const one of [...waiting]) answer(one, found);
  };

  const write = () => {
    const [first] = waiting;
    if (first === undefined || writing) return;
    if (retry !== null) clock.clearTimeout(retry);
    retry = null;
    let answered = false;
    const settle = (found: RecordProblem | null) => {
      if (answered) return;
      answered = true;
      clock.clearTimeout(watchdog);
      writing = false;
      if (found?.reason === 'differs') return setApart(sessionOf(first.entry.id), found);
      if (found !== null) return failed(found);
      retryMilliseconds = FIRST_RETRY_MS;
      waiting.shift();
      answer(first, null);
      write();
    };
    const watchdog = clock.setTimeout(() => settle(problem('unknown')), WRITE_WAIT_MS);
    writing = true;
    records.append(first.entry, settle);
  };

  /** The stored, then what is only here; where storage cannot be read, what began here. */
  const merged = async (session: string): Promise<Entry[]> => {
    const own = kept.filter(({ id }) => sessionOf(id) === session);
    try {
      const stored = await records.read(session);
      const ids = new Set(stored.map(({ id }) => id));
      const said = new Map(own.map((entry) => [entry.id, entry]));
      return [
        ...stored.map((entry) => said.get(entry.id) ?? entry),
        ...own.filter(({ id }) => !ids.has(id)),
      ];
    } catch (error) {
      if (own[0]?.type === 'started') return own;
      throw error;
    }
  };

  /** What is stored, or null where it cannot be read and something began here; else the error. */
  const storedOrNone = async <T>(read: () => Promise<T>): Promise<T | null> => {
    try {
      return await read();
    } catch (error) {
      if (!kept.some(({ type }) => type === 'started')) throw error;
      return null;
    }
  };

  return {
    append(entry, done) {
      if (!kept.some(({ id }) => id === entry.id)) kept.push(entry);
      if (apart.has(sessionOf(entry.id))) return done(problem('differs'));
      waiting.push({ entry, done });
      write();
    },
    held: () => [...kept],
    isHolding: () => waiting.length > 0 || apart.size > 0,
    read: merged,
    async sessions() {
      return headsOf(kept, (await storedOrNone(() => records.sessions())) ?? []);
    },
    async outcomes() {
      const stored = await storedOrNone(() => records.outcomes());
      const begun = kept.filter(({ type }) => type === 'started');
      const here = stored === null ? begun : waiting.map(({ entry }) => entry);
      const names = new Set(here.map(({ id }) => sessionOf(id)));
      const own = await Promise.all([...names].map(async (name) => outcomesOf(await merged(name))));
      const others = (stored ?? []).filter(({ head }) => !names.has(head.session));
      return [...own.flat(), ...others].sort((a, b) => newestFirst(a.head, b.head));
    },
    async addAll(entries) {
      const sessions = new Set(entries.map(({ id }) => sessionOf(id)));
      const isBehind = waiting.some(({ entry }) => sessions.has(sessionOf(entry.id)));
      if (isBehind) throw new RecordError(null, lastProblem ?? problem('unknown'));
      await records.addAll(entries);
    },
    async removeInvented() {
      await records.removeInvented();
      const others = kept.filter(({ id }) => !isInvented(sessionOf(id)));
      kept.splice(0, kept.length, ...others);
    },
  };
};
