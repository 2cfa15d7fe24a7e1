/** What two devices know of the same things as one, the same whichever of them takes in the other. */
import { canonicalJson } from './canonical';
import { checksumOf } from './checksum';
import type { Entry } from '../log';
import type { KeptPerson, KeptSession, Tombstone, WholeRecord } from './wholeRecord';

type Item = KeptSession['entries'][number];

/**
 * The entries of a session of which two devices know: each id once, each device's in its order, and
 * what only one has after what both have before it, by its time. Where an entry here is damaged and
 * the other's is the one that was written, that one stands. Calls `differs` with the place in
 * `there` of an entry that has the id of one here and other content.
 */
export function mergedEntries(
  here: readonly Item[],
  there: readonly Item[],
  differs: (index: number) => void,
): Item[] {
  const known = new Map(here.map((item) => [item.id, item]));
  const truest = new Map(known);
  there.forEach((item, index) => {
    const own = known.get(item.id);
    if (own === undefined) truest.set(item.id, item);
    else if (own.type === 'damaged') truest.set(item.id, whole(own, item));
    else if (item.type !== 'damaged' && canonicalJson(own) !== canonicalJson(item)) differs(index);
  });
  return orderOf(here, there).flatMap((id) => truest.get(id) ?? []);
}

/**
 * What stands where an entry here is damaged: the other's where the checksum says that it is it, or
 * where the checksum is lost, as under a key.
 */
const whole = (damaged: Item & { type: 'damaged' }, item: Item): Item =>
  item.type !== 'damaged' && ['', checksumOf(item)].includes(damaged.checksum) ? item : damaged;

/** A damaged entry is of the time of the one before it. */
function timed(items: readonly Item[]): Timed[] {
  let atSeconds = 0;
  return items.map((item) => {
    if (item.type !== 'damaged') atSeconds = Math.max(atSeconds, item.atSeconds);
    return { id: item.id, atSeconds };
  });
}

interface Timed {
  id: string;
  atSeconds: number;
}

/** Ids in the order of both lists; where those contradict each other, by time and id. */
function orderOf(one: readonly Item[], other: readonly Item[]): string[] {
  const [a, b] = [timed(one), timed(other)];
  const idsOfA = new Set(a.map(({ id }) => id));
  const inBoth = new Set(b.map(({ id }) => id).filter((id) => idsOfA.has(id)));
  const common = ({ id }: Timed) => inBoth.has(id);
  const [commonA, commonB] = [a.filter(common), b.filter(common)];
  if (commonA.some(({ id }, at) => id !== commonB[at]?.id)) return byTime(a, b);
  const order: string[] = [];
  let [atA, atB] = [0, 0];
  while (atA < a.length || atB < b.length) {
    const [nextA, nextB] = [a[atA], b[atB]];
    const isAtBoth = nextA?.id === nextB?.id;
    if (isAtBoth || nextB === undefined) atA += 1;
    if (isAtBoth || nextA === undefined) atB += 1;
    if (nextA === undefined || nextB === undefined || isAtBoth) {
      order.push((nextA ?? nextB)?.id ?? '');
    } else if (common(nextB) || (!common(nextA) && before(nextA, nextB))) {
      order.push(nextA.id);
      atA += 1;
    } else {
      order.push(nextB.id);
      atB += 1;
    }
  }
  return order;
}

const before = (one: Timed, other: Timed): boolean =>
  one.atSeconds === other.atSeconds ? one.id < other.id : one.atSeconds < other.atSeconds;

const byTime = (...lists: Timed[][]): string[] => {
  const all = new Map<string, Timed>();
  for (const item of lists.flat()) {
    const known = all.get(item.id);
    if (known === undefined || item.atSeconds < known.atSeconds) all.set(item.id, item);
  }
  return [...all.values()].sort((x, y) => (before(x, y) ? -1 : 1)).map(({ id }) => id);
};

/** Who somebody is by the one of two devices that changed it last. */
export function laterPerson(one: KeptPerson, other: KeptPerson): KeptPerson {
  if (one.changedAt !== other.changedAt) return one.changedAt > other.changedAt ? one : other;
  return canonicalJson(one) >= canonicalJson(other) ? one : other;
}

/** Who was erased on both is erased since the first time. */
export const earlierTombstone = (one: Tombstone, other: Tombstone): Tombstone =>
  canonicalJson([Date.parse(one.erasedAt), one]) <=
  canonicalJson([Date.parse(other.erasedAt), other])
    ? one
    : other;

/**
 * The record with entries that the page still holds, whether it has them already or not. A session
 * whose beginning is in neither is left out.
 */
export function withHeld(
  record: WholeRecord,
  held: readonly Entry[],
  sessionOf: (id: string) => string,
): WholeRecord {
  const sessions = new Map(record.sessions.map((one) => [one.session, one.entries]));
  for (const session of new Set(held.map(({ id }) => sessionOf(id)))) {
    const own = held.filter(({ id }) => sessionOf(id) === session);
    const here = sessions.get(session) ?? [];
    if (here.length === 0 && own[0]?.type !== 'started') continue;
    // What the page holds is what was said, should the device have something else.
    sessions.set(
      session,
      mergedEntries(own, here, () => null),
    );
  }
  const all = [...sessions].map(([session, entries]) => ({ session, entries }));
  return { ...record, sessions: all.sort((a, b) => (a.session < b.session ? -1 : 1)) };
}
