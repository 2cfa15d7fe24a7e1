import { describe, expect, it } from 'vitest';
import { device, behind } from '../../records/device';
import { ended, finding, started } from '../../records/entries';
import { stored } from '../../records/contract';
import { someone } from '../../domain/people/someone';
import { leavingNamesOut } from '../../../src/records/leavingNamesOut';
import { nameless, nameWords } from '../../../src/domain/people/nameless';
import { writeRecord } from '../../../src/main/record/writing';
import type { Entry } from '../../../src/domain/log';

const heard = (number: number, text: string): Entry => ({
  ...{ id: `mon:rack:${String(number)}`, atSeconds: number },
  ...{ type: 'heard', prompt: 'check/hinge-unloaded', text, verdict: 'accept', reply: null },
});
const said = (number: number, text: string): Entry => ({
  ...finding('mon', number),
  source: { by: 'voice', text, confidence: 1 },
});

describe('what was typed with a name', () => {
  it('is nowhere in the database nor in a saved record once the athlete is erased', async () => {
    const here = device();
    const people = [someone('p1', { name: 'Quib Żarn' }), someone('p2', { name: 'Tam Left' })];
    await here.people.save(people);
    const isOfTrade = (word: string) => ['left', 'one', 'forty'].includes(word);
    const records = leavingNamesOut(here.records, () => people.map(({ name }) => name), isOfTrade);
    await stored(records, started('mon', undefined, 'p1'));
    await stored(records, heard(1, 'QUIB left one forty'));
    await stored(records, said(2, "quib's left one forty, zarn!"));
    await records.addAll([said(3, 'Tam, Quib: pass'), ended('mon', 4)]);
    await here.people.remove(['p1', 'p2']);

    const log = await here.records.read('mon');
    expect(
      log
        .slice(1, 4)
        .map((one) => ('source' in one ? one.source?.text : 'text' in one && one.text)),
    ).toEqual(['… left one forty', "…'s left one forty, …!", '…, …: pass']);
    const all = await behind(here.indexedDB, async (db) =>
      JSON.stringify(await Promise.all(db.tables.map((table) => table.toArray()))),
    );
    const { text } = await writeRecord(await here.keeping.whole(), '2031-03-01T12:00:00Z');
    for (const name of [/quib/i, /zarn|żarn/i, /\btam\b/i]) {
      expect(all).not.toMatch(name);
      expect(text).not.toMatch(name);
    }
  });

  it('is not in the other of two readings either', () => {
    const other = {
      heard: 'quib fail',
      verdict: 'ask',
      reply: null,
      confidence: 1,
      readback: null,
    };
    const entry = { ...heard(1, 'quib pain'), other } as Entry;
    expect(JSON.stringify(nameless(entry, nameWords(['Quib'])))).not.toContain('quib');
  });

  it('keeps words that only have a name in them, and what it means', () => {
    const entry = said(1, 'tambourine pass');
    expect(nameless(entry, nameWords(['Tam Q', 'Quib']))).toBe(entry);
    expect(nameless(said(1, 'q pass'), nameWords(['Tam Q']))).toEqual(said(1, 'q pass'));
    expect(nameless(said(1, 'Tam knees forward'), nameWords(['Tam']))).toEqual(
      said(1, '… knees forward'),
    );
  });
});
