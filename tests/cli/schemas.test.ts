import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { writtenSchemas } from '../../src/cli/schemas';
import { DEFAULT_SETTINGS, type Entry } from '../../src/domain/log';
import type { InventedClub } from '../../src/domain/people/inventedClub';
import { rehearse } from '../../src/cli/rehearsing';
import { secondsOf } from '../../src/cli/durations';
import { book, NAMES, sessionOf } from '../timelines/sessions';
import { sayso, unwritten, written } from './running';

const read = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));

// After a schema changed: npx tsx src/cli/writeSchemas.ts
it.each(Object.keys(writtenSchemas()))('%s is as its schema reads', (name) => {
  expect(read(`scripts-cues/${name}`)).toEqual(JSON.parse(JSON.stringify(writtenSchemas()[name])));
});

describe('the schema of an entry, as it lies there', () => {
  /** What an editor or another program makes of the file. */
  const entry = z.fromJSONSchema(
    read('scripts-cues/entry.schema.json') as z.core.JSONSchema.JSONSchema,
  );
  const refused = (entries: readonly unknown[]): unknown[] =>
    entries.filter((one) => !entry.safeParse(one).success);
  const asJson = (entries: readonly Entry[]): Entry[] =>
    JSON.parse(JSON.stringify(entries)) as Entry[];

  it.each(NAMES)('takes every entry of the rehearsal %s', (name) => {
    const entries = asJson(sessionOf(name).entries);
    expect(entries.length).toBeGreaterThan(5);
    expect(refused(entries)).toEqual([]);
  });

  it('takes what --session writes, with all that is known of an athlete', async () => {
    const out = unwritten('known.json');
    const athlete = {
      ...{ stature: '175 cm', ageYears: 30, sex: 'female', sole: '2 cm', blocks: ['10 cm'] },
      ...{ angleTool: 'inclinometer', missingEquipment: ['rack'], words: 'tones' },
    };
    await sayso(
      ...['rehearse', 'hinge', '--replies', written('known.txt', 'knees forward\npass\npass\n')],
      ...['--athlete', written('known.athlete.json', JSON.stringify(athlete))],
      ...['--session', out, '--call-word', 'sayso'],
    );
    const { entries } = read(out) as { entries: Entry[] };
    expect(entries[0]).toMatchObject({ athlete: { sex: 'female' }, missing: ['rack'] });
    expect(refused(entries)).toEqual([]);
  });

  it('takes a session alone, and one for a group', () => {
    for (const way of ['alone', 'group'] as const) {
      const { entries } = rehearse({
        ...{ book, routine: 'hinge', way, settings: DEFAULT_SETTINGS, secondsOf },
        replies: { inTurn: [{ line: 1, text: 'pass', audio: null }], timed: [] },
      });
      expect(refused(asJson(entries))).toEqual([]);
    }
  });

  it('takes the invented club', () => {
    const club = read('public/invented-club/club.json') as InventedClub;
    expect(refused(club.sessions.flat())).toEqual([]);
  });

  it.each([
    ['an unknown type', { type: 'guessed' }],
    ['a field that no entry has', { points: 7 }],
    ['a time that is none', { atSeconds: 'soon' }],
    ['a name that is none', { id: 7 }],
    ['a side that nobody has', { side: 'middle' }],
  ])('refuses %s', (_, wrong) => {
    const asked = { type: 'asked', id: 'a:b:1', atSeconds: 2, prompt: 'idle', side: null };
    expect(refused([asked])).toEqual([]);
    expect(refused([{ ...asked, ...wrong }])).toHaveLength(1);
  });
});
