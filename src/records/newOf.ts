import { canonicalJson } from '../domain/keeping/canonical';
import type { Entry } from '../domain/log';
import { problem, RecordError } from './problems';

/**
 * Those of the entries that are not there yet, each once. `there`: by id, null where what lies there
 * is damaged. Throws a RecordError where something else is there under the same id: entries are
 * never changed, and what was not kept is never called stored.
 */
export function newOf(entries: readonly Entry[], there: Map<string, Entry | null>): Entry[] {
  const known = new Map(there);
  return entries.filter((entry) => {
    const own = known.get(entry.id);
    if (own === undefined) known.set(entry.id, entry);
    else if (own === null || canonicalJson(own) !== canonicalJson(entry)) {
      throw new RecordError(null, problem('differs'));
    }
    return own === undefined;
  });
}
