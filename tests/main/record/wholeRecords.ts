import fc from 'fast-check';
import { canonicalJson } from '../../../src/domain/keeping/canonical';
import type { KeptNote, WholeRecord } from '../../../src/domain/keeping/wholeRecord';
import type { Entry } from '../../../src/domain/log';
import type { Person } from '../../../src/domain/people/person';
import { someone } from '../../domain/people/someone';
import { device, type Device } from '../../records/device';
import { ended, finding, outcome, painKind, started } from '../../records/entries';

export const MADE_AT = '2031-03-01T12:00:00.000+01:00';

/** What is done on a device, one after the other. */
export type Deed =
  | { do: 'save'; person: Person }
  | { do: 'erase'; person: string }
  | { do: 'hold'; entries: Entry[] }
  | { do: 'note'; note: KeptNote }
  | { do: 'unnote'; id: string };

const NAMES = [
  'Quib Marn',
  'Vennel Ashgrove',
  'Żofia Ñandú',
  'مها النجم',
  "O'Brae; =1+1",
  '<b>Tam</b>',
];
const personId = fc.constantFrom('p1', 'p2', 'p3');

const person = fc
  .record({
    id: personId,
    name: fc.constantFrom(...NAMES),
    squad: fc.constantFrom(null, 'Mornings', 'Early'),
    birthYear: fc.constantFrom(null, 1999, 2013),
    mindText: fc.constantFrom('', 'left wrist\nno hanging', '"quoted" \\ and é'),
  })
  .map(({ id, ...fields }) => someone(id, fields));

/** A session of the device, in some length: what is longer begins as what is shorter. */
const session = (device: string) =>
  fc.tuple(fc.nat(2), fc.nat(6), fc.option(personId)).map(([number, length, who]) => {
    const name = `${device}${String(number)}`;
    const whose = ['p1', 'p2', 'p3'][number] ?? who ?? 'p1';
    const all = [
      started(name, `2031-03-0${String(number + 1)}T09:00:00+01:00`, whose),
      finding(name, 1),
      painKind(name, 2, 'known'),
      outcome(name, 3, 'hinge'),
      {
        ...finding(name, 4),
        source: { by: 'voice' as const, text: 'é "x" \u202e', confidence: 0.5 },
      },
      ended(name, 5),
    ];
    return all.slice(0, length + 1);
  });

const note = fc
  .record({
    number: fc.nat(3),
    person: fc.option(personId),
    text: fc.constantFrom('calm', 'tired\n😀'),
  })
  .map(({ number, person: who, text }) => ({
    // A note is never changed: its id tells all of it.
    ...{
      id: `n${String(number)}-${who ?? ''}-${text.slice(0, 1)}`,
      session: 'a1',
      person: who,
      text,
    },
    writtenAt: '2031-03-01T10:00:00Z',
  }));

/** What a device was used for. Two devices have sessions of their own and people in common. */
export const deeds = (device: string): fc.Arbitrary<Deed[]> =>
  fc.array(
    fc.oneof(
      { weight: 4, arbitrary: person.map((one): Deed => ({ do: 'save', person: one })) },
      { weight: 1, arbitrary: personId.map((one): Deed => ({ do: 'erase', person: one })) },
      { weight: 4, arbitrary: session(device).map((entries): Deed => ({ do: 'hold', entries })) },
      { weight: 3, arbitrary: note.map((one): Deed => ({ do: 'note', note: one })) },
      { weight: 1, arbitrary: note.map(({ id }): Deed => ({ do: 'unnote', id })) },
    ),
    { maxLength: 12 },
  );

/** A device on which this was done, one deed a minute; what an erased athlete is in is refused. */
export async function used(done: readonly Deed[]): Promise<Device> {
  let now = Date.parse('2031-03-01T12:00:00Z');
  const here = device(undefined, () => now);
  for (const deed of done) {
    now += 60_000;
    if (deed.do === 'save') await here.people.save([deed.person]).catch(() => null);
    else if (deed.do === 'erase') await here.people.remove([deed.person]);
    else if (deed.do === 'hold') await here.records.addAll(deed.entries);
    else if (deed.do === 'note') await here.notes.add(deed.note).catch(() => null);
    else await here.notes.remove(deed.id);
  }
  return here;
}

/** All that a device keeps, as one text: equal where equal. */
export const kept = async ({ keeping }: Device): Promise<string> =>
  canonicalJson(await keeping.whole());

/** A record with one of each. */
export async function fullDevice(): Promise<Device> {
  const here = await used([
    { do: 'save', person: someone('p1', { name: 'Quib Marn', squad: 'Mornings' }) },
    { do: 'save', person: someone('p2', { name: 'Vennel Ashgrove', mindText: 'left wrist' }) },
    { do: 'erase', person: 'p2' },
    {
      do: 'hold',
      entries: [
        started('mon', undefined, 'p1'),
        finding('mon', 1),
        outcome('mon', 2, 'hinge'),
        ended('mon', 3),
      ],
    },
    { do: 'hold', entries: [started('tue'), finding('tue', 1)] },
    {
      do: 'note',
      note: { id: 'n1', session: 'mon', person: 'p1', text: 'calm', writtenAt: MADE_AT },
    },
  ]);
  return here;
}

export const EMPTY: WholeRecord = { people: [], sessions: [], notes: [], erased: [] };
