import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalJson } from '../../../src/domain/keeping/canonical';
import { checksumOf, crc32 } from '../../../src/domain/keeping/checksum';
import { laterPerson, mergedEntries } from '../../../src/domain/keeping/merging';
import type { DamagedEntry, KeptPerson } from '../../../src/domain/keeping/wholeRecord';
import type { Entry } from '../../../src/domain/log';
import { someone } from '../people/someone';

const differs = (index: number): never => {
  throw new Error(`differs at ${String(index)}`);
};
const at = (id: string, atSeconds: number): Entry => ({
  ...{ id, atSeconds, type: 'asked', prompt: 'check/hinge-unloaded', side: null },
});
const damaged = (entry: Entry, checksum = checksumOf(entry)): DamagedEntry => ({
  ...{ type: 'damaged', id: entry.id, checksum, was: 'who knows' },
});
const idsOf = (items: readonly { id: string }[]) => items.map(({ id }) => id).join(' ');

describe('the checksum of an entry', () => {
  it('is the CRC-32 that is published for 123456789', () => {
    expect(crc32('123456789')).toBe('cbf43926');
    expect(crc32('')).toBe('00000000');
    expect(crc32('Żofia')).toBe(crc32('Żofia'.normalize('NFC')));
  });

  it('is the same in whatever order the fields stand, and without those that are undefined', () => {
    const one = at('mon:rack:1', 3);
    const turned = Object.fromEntries(Object.entries(one).reverse()) as unknown as Entry;
    expect(checksumOf({ ...turned, person: undefined } as Entry)).toBe(checksumOf(one));
    expect(canonicalJson({ b: [{ d: 1, c: null }], a: 'é"' })).toBe(
      '{"a":"é\\"","b":[{"c":null,"d":1}]}',
    );
  });

  it('changes with every field and every letter', () => {
    const one = at('mon:rack:1', 3);
    const others = [
      at('mon:rack:2', 3),
      at('mon:rack:1', 3.001),
      { ...one, side: 'left' as const },
    ];
    for (const other of others) expect(checksumOf(other as Entry)).not.toBe(checksumOf(one));
  });
});

describe('a session that two devices know', () => {
  it('has what each added after what both had, in the order of time', () => {
    const both = [at('s:a:1', 0), at('s:a:2', 5)];
    const merged = mergedEntries(
      [...both, at('s:a:3', 9), at('s:a:4', 30)],
      [...both, at('s:b:3', 20), at('s:b:4', 40)],
      differs,
    );
    expect(idsOf(merged)).toBe('s:a:1 s:a:2 s:a:3 s:b:3 s:a:4 s:b:4');
  });

  it('keeps its own order where it was lengthened on a clock that had been set back', () => {
    const longer = [at('s:z:1', 8), at('s:b:2', 8), at('s:a:3', 8)];
    expect(idsOf(mergedEntries(longer, longer.slice(0, 1), differs))).toBe(idsOf(longer));
    expect(idsOf(mergedEntries(longer.slice(0, 1), longer, differs))).toBe(idsOf(longer));
  });

  it('is one that an entry differs in, with its place', () => {
    const one = [at('s:a:1', 0), at('s:a:2', 5)];
    expect(() => mergedEntries(one, [one[0]!, at('s:a:2', 6)], differs)).toThrow('differs at 1');
  });

  it('has a damaged entry whole again where the other device has the one that was written', () => {
    const entry = at('s:a:1', 0);
    expect(mergedEntries([damaged(entry)], [entry], differs)).toEqual([entry]);
    expect(mergedEntries([entry], [damaged(entry)], differs)).toEqual([entry]);
    const another = damaged(entry, '00000000');
    expect(mergedEntries([another], [entry], differs)).toEqual([another]);
  });

  it('is the same from either side, whatever each of them has', () => {
    const common = fc.subarray([1, 2, 3, 4, 5, 6, 7, 8]);
    const list = (name: string) =>
      fc
        .array(fc.tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 0, max: 8 })), {
          maxLength: 8,
        })
        .map((own) =>
          own.map(([seconds, after], index) => ({
            entry: at(`s:${name}:${String(index)}`, seconds),
            after,
          })),
        );
    const mixed = (shared: number[], own: { entry: Entry; after: number }[]) =>
      [0, ...shared].flatMap((number, index) => [
        ...(number === 0 ? [] : [at(`s:m:${String(number)}`, number)]),
        ...own
          .filter(({ after }) => after % (shared.length + 1) === index)
          .map(({ entry }) => entry),
      ]);
    fc.assert(
      fc.property(common, list('a'), list('b'), (shared, a, b) => {
        const [here, there] = [mixed(shared, a), mixed(shared, b)];
        const merged = mergedEntries(here, there, differs);
        expect(mergedEntries(there, here, differs)).toEqual(merged);
        expect(new Set(merged.map(({ id }) => id)).size).toBe(shared.length + a.length + b.length);
        for (const list of [here, there])
          expect(merged.filter(({ id }) => list.some((each) => each.id === id))).toEqual(list);
        expect(mergedEntries(merged, there, differs)).toEqual(merged);
      }),
    );
  });

  it('is the same from either side where the two contradict each other in order', () => {
    const [one, two, three] = [at('s:a:1', 4), at('s:a:2', 4), at('s:b:1', 9)];
    const merged = mergedEntries([one, two], [two, one, three], differs);
    expect(mergedEntries([two, one, three], [one, two], differs)).toEqual(merged);
    expect(idsOf(merged)).toBe('s:a:1 s:a:2 s:b:1');
  });
});

describe('a person whom two devices know', () => {
  const kept = (name: string, changedAt: number): KeptPerson => ({
    ...someone('a', { name }),
    changedAt,
  });

  it('is who they were changed into last, from either side', () => {
    const [old, later] = [kept('Zed Marn', 1), kept('Quib Marn', 2)];
    expect(laterPerson(old, later)).toBe(later);
    expect(laterPerson(later, old)).toBe(later);
    const same = kept('Ashgrove', 2);
    expect(laterPerson(same, later)).toEqual(laterPerson(later, same));
  });
});
