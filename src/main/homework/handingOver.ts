import { handoverOf } from '../../domain/handover/making';
import { startOf } from '../../domain/handover/returning';
import type { Handover } from '../../domain/handover/handover';
import { canonicalJson } from '../../domain/keeping/canonical';
import type { DrillId } from '../../domain/script';
import type { Became } from '../../screens/record/state';
import type { Travels } from '../../screens/homework/state';
import type { SeatStore } from '../../screens/seat';
import { randomName } from '../names';
import type { Parts } from '../parts';
import { notKept } from '../people/notKept';
import type { Sending } from './sending';
import { homeworkTravels } from './travelling';

/** So many of a person are known again when they come back; the oldest goes. */
const REMEMBERED_MOST = 100;

const NOT_READ = 'This visit is not read yet. Wait a moment, and try it again.';
const NOTHING = 'Nothing of this homework may be handed over. Tick what you allow alone.';

/** On the coach's device: what the visit that is shown hands over. */
export function createHandingOver({
  parts: { book, people, records },
  store,
  page,
  sending,
  changed,
  now,
}: {
  parts: Pick<Parts, 'book' | 'people' | 'records'>;
  store: SeatStore;
  page: string;
  sending: Sending;
  changed: () => Promise<void>;
  now: () => string;
}) {
  /** What was handed over of a session already: the same again, and not one more. */
  const made = new Map<string, Handover>();

  async function handOver(allowed: DrillId[]): Promise<Became<Travels>> {
    const { visit } = store.state();
    if (visit?.state !== 'here' || visit.record === undefined) return { say: NOT_READ };
    const { head, end, record } = visit;
    const started = startOf(await records.read(head.session).catch(() => []));
    if (started === undefined) return { say: NOT_READ };
    const handover = handoverOf(end.homework, allowed, {
      ...{ id: randomName(), language: book.language, madeAt: now() },
      ...{ missing: started.missing ?? [], settings: record.settings },
    });
    if (handover === null) return { say: NOTHING };
    const { session, person } = head;
    const key = canonicalJson([session, { ...handover, id: '', madeAt: '' }]);
    const known = made.get(key) ?? handover;
    try {
      if (person !== null) await remember(person, known.id);
    } catch (error) {
      return { say: notKept(error) };
    }
    made.set(key, known);
    return sending.offer(await homeworkTravels(page, known));
  }

  /** Whose homework it is, beside the person and not in the log: it is erased with them. */
  async function remember(id: string, handover: string) {
    const person = (await people.all()).find((one) => one.id === id);
    if (person === undefined || person.handovers?.includes(handover)) return;
    const handovers = [...(person.handovers ?? []), handover].slice(-REMEMBERED_MOST);
    await people.save([{ ...person, handovers }]);
    await changed();
  }

  return { handOver };
}
