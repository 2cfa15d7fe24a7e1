import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { sayso, unwritten, written } from './running';

const REPLIES = fileURLToPath(new URL('../timelines/three-areas.replies.txt', import.meta.url));
const path = unwritten('sheet-session.json');
type Json = Record<string, unknown> & { entries: Record<string, unknown>[] };
let session: Json;

beforeAll(async () => {
  await sayso('rehearse', 'readiness', '--replies', REPLIES, '--session', path);
  session = JSON.parse(readFileSync(path, 'utf8')) as Json;
});
const changed = (change: (session: Json) => unknown): string => {
  const copy = structuredClone(session);
  const result = change(copy) ?? copy;
  return written('changed.json', typeof result === 'string' ? result : JSON.stringify(result));
};

describe('sheet', () => {
  it('prints the text of what rehearse wrote, without a name', async () => {
    const { status, output, errors } = await sayso('sheet', path, '--as', 'text');
    expect([status, errors]).toEqual([0, '']);
    expect(output).toMatch(/^Readiness sheet\n=+\nThis is not a diagnosis/);
    expect(output).toContain('Athlete:         not named');
    expect(output).toContain('Squat: The goblet squat, 3 sets of 6');
    expect(output.endsWith('source.\n')).toBe(true);
  });

  it('prints HTML, CSV and FHIR, each as one file', async () => {
    const named = ['--name', 'Vennel Ashgrove', '--note', 'Ask <again>'];
    const html = await sayso('sheet', path, '--as', 'html', ...named);
    expect(html.output).toMatch(/^<!doctype html>[\s\S]*<dd>V\. A\.<\/dd>[\s\S]*<\/html>\n$/);
    expect(html.output).toContain('Ask &lt;again&gt;');
    const csv = await sayso('sheet', path, '--as', 'csv', ...named, '--name-as', 'whole');
    expect(csv.output).toMatch(/^\uFEFFpart,area,what,/);
    expect(csv.output).toContain('Vennel Ashgrove');
    const fhir = await sayso('sheet', path, '--as', 'fhir', ...named);
    expect(JSON.parse(fhir.output)).toMatchObject({ resourceType: 'Bundle', type: 'collection' });
  });

  it('says the same each time, byte for byte', async () => {
    for (const form of ['text', 'html', 'csv', 'fhir']) {
      const [one, other] = [
        await sayso('sheet', path, '--as', form),
        await sayso('sheet', path, '--as', form),
      ];
      expect(one.output).toBe(other.output);
    }
  });

  it('works it out from the log, whatever else the file says', async () => {
    const lying = changed((copy) => {
      copy.areas = [{ area: 'squat', outcome: 'ready' }];
      copy.liftsReady = ['snatch'];
    });
    const { output } = await sayso('sheet', lying, '--as', 'text');
    expect(output).toBe((await sayso('sheet', path, '--as', 'text')).output);
  });

  it.each([
    [['--as', 'pdf'], /--as is one of text, html, csv, fhir/],
    [['--as', 'constructor'], /--as is one of text, html, csv, fhir/],
    [[], /--as is one of/],
    [['--as', 'text', '--name-as', 'nick'], /--name-as is initials or whole/],
    [['--as', 'text', '--colour', 'red'], /colour/],
    [['--as', 'text', 'other.json'], /Too much: other.json/],
  ])('is wrong usage, exit 2: %j', async (args, message) => {
    const { status, output, errors } = await sayso('sheet', path, ...args);
    expect([status, output]).toEqual([2, '']);
    expect(errors).toMatch(message);
    expect(errors).toContain('Usage: sayso sheet');
  });

  it('without a file is wrong usage', async () => {
    const { status, errors } = await sayso('sheet', '--as', 'text');
    expect(status).toBe(2);
    expect(errors).toContain('sheet SESSION.json');
  });

  it.each<[string, () => string, RegExp]>([
    ['is not there', () => unwritten('no.json'), /no\.json: there is no such file\. Give the file/],
    [
      'is a folder',
      () => fileURLToPath(new URL('.', import.meta.url)),
      /cannot be read \(EISDIR\)/,
    ],
    ['is no JSON', () => changed(() => 'Readiness'), /is no JSON .*Give the file/],
    ['was cut off', () => changed((copy) => JSON.stringify(copy).slice(0, -9)), /is no JSON/],
    ['is a list', () => changed(() => '[]'), /holds no JSON object/],
    ['is null', () => changed(() => 'null'), /holds no JSON object/],
    ['has no format', () => changed((copy) => void delete copy.format), /format: is no session/],
    [
      'is a whole record',
      () => changed((copy) => void (copy.format = 'sayso-record')),
      /is no session \(its format is "sayso-record"\)/,
    ],
    [
      'is of a newer version',
      () => changed((copy) => void (copy.format = 'sayso-session-2')),
      /version 2 is newer than 1.*Take the newest Sayso/,
    ],
    [
      'is of no version',
      () => changed((copy) => void (copy.format = 'sayso-session-x')),
      /"sayso-session-x" is not known/,
    ],
    ['has no log', () => changed((copy) => void (copy.entries = [])), /entries: there is no log/],
    [
      'has a log without its start',
      () => changed((copy) => void copy.entries.shift()),
      /entries\[0\]: must be the entry "started".*take another copy/,
    ],
    [
      'has an entry twice',
      () => changed((copy) => void copy.entries.push(copy.entries.at(-1)!)),
      /entries\[\d+\]\.id: "rehearsal:cli:\d+" stands there twice/,
    ],
    [
      'has two logs',
      () => changed((copy) => void copy.entries.push({ ...copy.entries[0], id: 'a:b:1' })),
      /a second "started"/,
    ],
    [
      'has a word where a number stands',
      () => changed((copy) => void (copy.entries[3]!.atSeconds = 'soon')),
      /entries\[3\]\.atSeconds: must be a number, 0 to .*damaged/,
    ],
    [
      'has an entry of an unknown type',
      () => changed((copy) => void (copy.entries[3]!.type = 'guessed')),
      /entries\[3\]\.type: must be one of started,/,
    ],
    [
      'reaches for the prototype',
      () =>
        changed((copy) =>
          JSON.stringify(copy).replace('"type":"ended"', '"__proto__":{"a":1},"type":"ended"'),
        ),
      /entries\[\d+\]/,
    ],
    [
      'is of a routine that is not here',
      () => changed((copy) => void (copy.entries[0]!.routine = 'handstand')),
      /There is no routine "handstand"\. Known: /,
    ],
    [
      'is of a language that is not here',
      () => changed((copy) => void (copy.entries[0]!.language = 'xx')),
      /no scripts for "xx"; known: en, es/,
    ],
  ])('refuses a file that %s: exit 1, what, where and what to do', async (_, file, message) => {
    const { status, output, errors } = await sayso('sheet', file(), '--as', 'text');
    expect(errors).toMatch(message);
    expect([status, output]).toEqual([1, '']);
    expect(errors).not.toMatch(/\n\s+at /);
  });

  it('refuses bytes that are no text', async () => {
    const file = written('bytes.json', new Uint8Array([0x7b, 0xff, 0xfe, 0x00]));
    const { status, errors } = await sayso('sheet', file, '--as', 'html');
    expect(status).toBe(1);
    expect(errors).toContain('is not in UTF-8');
  });
});
