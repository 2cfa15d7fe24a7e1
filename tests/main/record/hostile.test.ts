import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { RefusedRecord } from '../../../src/domain/keeping/wholeRecord';
import { readRecord } from '../../../src/main/record/reading';
import { sha256 } from '../../../src/main/record/sha256';
import { writeRecord } from '../../../src/main/record/writing';
import { fullDevice, MADE_AT } from './wholeRecords';

const bytesOf = (text: string) => new TextEncoder().encode(text);

/** What was to be refused, or null where it was taken. */
const refusalOf = async (file: Uint8Array<ArrayBuffer>): Promise<RefusedRecord | null> => {
  try {
    await readRecord(file);
    return null;
  } catch (error) {
    expect(error).toBeInstanceOf(RefusedRecord);
    return error as RefusedRecord;
  }
};

let text = '';
beforeAll(async () => {
  const { keeping } = await fullDevice();
  ({ text } = await writeRecord(await keeping.whole(), MADE_AT));
});

/** The file with this put in place of that, and a checksum that fits: somebody meant it. */
async function sealed(from: string | RegExp, to: string): Promise<Uint8Array<ArrayBuffer>> {
  const body = text.slice(0, text.lastIndexOf(',\n"checksum"'));
  const changed = body.replace(from, () => to);
  expect(changed).not.toBe(body);
  return bytesOf(`${changed},\n"checksum":"${await sha256(bytesOf(changed))}"}`);
}

/** Fields and what each of them must not be; each is put in its place with a checksum that fits. */
const BAD: [what: string, from: string | RegExp, to: string, place: string, reason: RegExp][] = [
  [
    'a time that is a text',
    '"atSeconds":10',
    '"atSeconds":"10"',
    'sessions[0].entries[1].atSeconds',
    /must be a number, 0 to/,
  ],
  [
    'a time before the start',
    '"atSeconds":10',
    '"atSeconds":-1',
    'sessions[0].entries[1].atSeconds',
    /must be a number, 0 to/,
  ],
  [
    'a time beyond all clocks',
    '"atSeconds":10',
    '"atSeconds":1e300',
    'sessions[0].entries[1].atSeconds',
    /must be a number, 0 to/,
  ],
  [
    'a number that is infinite',
    '"atSeconds":10',
    '"atSeconds":1e999',
    'sessions[0].entries[1].atSeconds',
    /must be a number, 0 to/,
  ],
  ['no time', /"atSeconds":10,/, '', 'sessions[0].entries[1].atSeconds', /must be a number/],
  ['a pain of 11', '"pain":null', '"pain":11', 'sessions[0].entries[1].pain', /0 to 10/],
  [
    'a pain of minus nought point one',
    '"pain":null',
    '"pain":-0.1',
    'sessions[0].entries[1].pain',
    /0 to 10/,
  ],
  [
    'a confidence of 2',
    '"confidence":0.9',
    '"confidence":2',
    'sessions[0].entries[1].source.confidence',
    /0 to 1/,
  ],
  [
    'a result that is none',
    '"result":"lost"',
    '"result":"best"',
    'sessions[0].entries[1].result',
    /must be one of held, lost, short, pain, not-tested/,
  ],
  [
    'a side that is none',
    '"side":null',
    '"side":"up"',
    'sessions[0].entries[1].side',
    /must be one of left, right, both/,
  ],
  [
    'a kind of entry that is none',
    '"type":"finding"',
    '"type":"juggled"',
    'sessions[0].entries[1].type',
    /must be one of started, asked, heard/,
  ],
  [
    'no kind of entry',
    ',"type":"finding"',
    '',
    'sessions[0].entries[1].type',
    /must be one of started/,
  ],
  ['a list for an entry', /\{"angleDegrees"[^\n]*/, '[],', 'sessions[0].entries[1]', /./],
  ['nothing for an entry', /\{"angleDegrees"[^\n]*/, 'null,', 'sessions[0].entries[1]', /./],
  [
    'a field that no entry has',
    '"pain":null',
    '"pain":null,"points":9',
    'sessions[0].entries[1]',
    /points: not known here; allowed: .*pain/,
  ],
  [
    'a field that no record has',
    '"people"',
    '"friends":[],"people"',
    '',
    /friends: not known here; allowed: .*people/,
  ],
  [
    'faults that are a text',
    /"faults":\[[^\]]*\]/,
    '"faults":"knees-forward"',
    'sessions[0].entries[1].faults',
    /array/,
  ],
  ['a list of people that is none', /"people":\[[^\]]*\]/, '"people":{}', 'people', /array/],
  ['no list of notes', /"notes":\[[^\]]*\],\n/, '', 'notes', /array/],
  [
    'a date that is none',
    '"startedAt":"2026-05-01T09:00:00+02:00"',
    '"startedAt":"2026-02-31T09:00:00Z"',
    'sessions[0].entries[0].startedAt',
    /date and time with its offset/,
  ],
  [
    'a date without its offset',
    '"startedAt":"2026-05-01T09:00:00+02:00"',
    '"startedAt":"2026-05-01T09:00:00"',
    'sessions[0].entries[0].startedAt',
    /offset/,
  ],
  [
    'an entry of another session',
    '"id":"mon:rack:1"',
    '"id":"tue:rack:1"',
    'sessions[0].entries[1].id',
    /another session than "mon"/,
  ],
  [
    'an id that is none',
    '"id":"mon:rack:1"',
    '"id":"mon"',
    'sessions[0].entries[1].id',
    /session:device:number/,
  ],
  ['an id with markup', '"id":"p1"', '"id":"<script>"', 'people[0].id', /letters, digits/],
  ['an id twice', '"id":"mon:rack:2"', '"id":"mon:rack:1"', 'sessions[0].entries[2].id', /twice/],
  ['a session twice', '"session":"tue"', '"session":"mon"', 'sessions[1].session', /twice/],
  [
    'a session without a start',
    /\{[^\n]*"type":"started"[^\n]*\n/,
    '',
    'sessions[0].entries[0].type',
    /begins with started/,
  ],
  [
    'a session without entries',
    /"session":"tue","entries":\[[^]*?\n\]\}/,
    '"session":"tue","entries":[]}',
    'sessions[1].entries',
    /must have an entry/,
  ],
  ['an invented session', /mon(?=["_:])/g, 'invented-1', 'sessions[0].session', /invented club/],
  [
    'an invented athlete',
    '"isInvented":false',
    '"isInvented":true',
    'people[0].isInvented',
    /must be false/,
  ],
  ['a name that turns what follows', 'Quib Marn', 'Quib \u202eMarn', 'people[0].name', /U\+202E/],
  [
    'a name that turns it by an escape',
    'Quib Marn',
    'Quib \\u202eMarn',
    'people[0].name',
    /U\+202E/,
  ],
  ['a name with an isolate', 'Quib Marn', '\u2067Quib Marn', 'people[0].name', /U\+2067/],
  ['a name with a bell', 'Quib Marn', 'Quib\\u0007 Marn', 'people[0].name', /U\+0007/],
  ['a name with nought in it', 'Quib Marn', 'Quib\\u0000Marn', 'people[0].name', /U\+0000/],
  ['a name with half a letter', 'Quib Marn', 'Quib \\ud800', 'people[0].name', /U\+D800/],
  ['a name without a letter', 'Quib Marn', '---', 'people[0].name', /no letter/],
  [
    'a name of 500 letters',
    'Quib Marn',
    'a'.repeat(500),
    'people[0].name',
    /at most 80 characters/,
  ],
  ['a name with two spaces', 'Quib Marn', 'Quib  Marn', 'people[0].name', /does not keep/],
  ['a squad that turns what follows', 'Mornings', '\u202dMornings', 'people[0].squad', /U\+202D/],
  [
    'words to mind that turn what follows',
    '"mindText":""',
    '"mindText":"\u202ewrist"',
    'people[0].mindText',
    /U\+202E/,
  ],
  [
    'a note longer than any',
    '"text":"calm"',
    `"text":"${'a'.repeat(2001)}"`,
    'notes[0].text',
    /at most 2000 letters/,
  ],
  [
    'a stature of a tower',
    '"statureMillimetres":null',
    '"statureMillimetres":99999',
    'people[0].statureMillimetres',
    /1000 to 2300/,
  ],
  [
    'a year of birth that is none',
    '"birthYear":null',
    '"birthYear":2013.5',
    'people[0].birthYear',
    /./,
  ],
  [
    'a tombstone of nothing',
    '"kind":"person"',
    '"kind":"squad"',
    'erased[0].kind',
    /must be one of person, note/,
  ],
  [
    '__proto__ in an entry',
    '"pain":null',
    '"pain":null,"__proto__":{"result":"held"}',
    'sessions[0].entries[1].__proto__',
    /no record has that name/,
  ],
  [
    '__proto__ by an escape',
    '"pain":null',
    '"pain":null,"__pr\\u006fto__":{"isHere":1}',
    'sessions[0].entries[1].__proto__',
    /no record has that name/,
  ],
  [
    'constructor in a person',
    '"isInvented"',
    '"constructor":{"prototype":{"isHere":1}},"isInvented"',
    'people[0].constructor',
    /no record has that name/,
  ],
  [
    '__proto__ in the whole',
    '"people"',
    '"__proto__":{"isHere":1},"people"',
    '__proto__',
    /no record has that name/,
  ],
  ['toString in the whole', '"people"', '"toString":1,"people"', '', /toString: not known here/],
  [
    'a name twice',
    '"result":"lost"',
    '"result":"held","result":"lost"',
    'sessions[0].entries[1].result',
    /twice/,
  ],
  [
    'a name twice by an escape',
    '"result":"lost"',
    '"r\\u0065sult":"held","result":"lost"',
    'sessions[0].entries[1].result',
    /twice/,
  ],
  ['a list twice', '"notes"', '"people":[],"notes"', 'people', /twice/],
  [
    'lists 100,000 deep',
    '"pain":null',
    `"pain":${'['.repeat(100_000)}${']'.repeat(100_000)}`,
    'sessions[0].entries',
    /more than 32 deep/,
  ],
  [
    'objects 100,000 deep',
    '"pain":null',
    `"pain":${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}`,
    'sessions[0].entries',
    /more than 32 deep/,
  ],
  [
    'lists that never close',
    '"pain":null',
    `"pain":${'['.repeat(100_000)}`,
    'sessions[0].entries',
    /more than 32 deep/,
  ],
  ['a comma too many', '"people":[', '"people":[,', '', /no whole JSON/],
  ['single quotes', '"pain":null', "'pain':null", '', /no whole JSON/],
  ['a comment', '"people"', '/* hello */"people"', '', /no whole JSON/],
  ['a text that never ends', '"text":"calm"', '"text":"calm', '', /no whole JSON/],
  ['NaN', '"atSeconds":10', '"atSeconds":NaN', '', /no whole JSON/],
];

const many = (letters: string, megabytes: number) =>
  letters.repeat(Math.ceil((megabytes * 1024 * 1024) / letters.length));

/** Files that are refused before what is in them is looked at, or as a whole. */
const FILES: [
  what: string,
  file: () => Uint8Array<ArrayBuffer> | Promise<Uint8Array<ArrayBuffer>>,
  reason: RegExp,
][] = [
  ['nothing', () => new Uint8Array(), /The file is empty/],
  ['50 MB of noughts', () => new Uint8Array(50 * 1024 * 1024), /UTF-16/],
  [
    '50 MB of spaces',
    () => new Uint8Array(50 * 1024 * 1024).fill(32),
    /no record that Sayso saved/,
  ],
  ['50 MB of lists in lists', () => bytesOf(many('[', 50)), /no record that Sayso saved/],
  [
    '50 MB of quotation marks',
    () => sealed('"text":"calm"', `"text":"${many('\\"', 50)}"`),
    /at most 2000 letters/,
  ],
  ['50 MB of one name', () => sealed('Quib Marn', many('Quib ', 50)), /at most 1000 letters/],
  [
    '50 MB of one field',
    () => sealed('"people"', `"${many('a', 50)}":1,"people"`),
    /no record has that name/,
  ],
  [
    '50 MB of lists in a person',
    () => sealed('"squad":"Mornings"', `"squad":[${many('[],', 50)}[]]`),
    /so many lists and objects/,
  ],
  ['50 MB cut off', () => bytesOf(text.slice(0, -80) + many('a', 50)), /cut off/],
  ['more than any record has', () => new Uint8Array(257 * 1024 * 1024), /257 MB; at most 256 MB/],
  ['UTF-16, little end first, with its mark', () => wide(text, true, true), /UTF-16, not in UTF-8/],
  ['UTF-16, big end first, with its mark', () => wide(text, false, true), /UTF-16, not in UTF-8/],
  ['UTF-16 without a mark', () => wide(text, true, false), /UTF-16, not in UTF-8/],
  [
    'Latin-1',
    async () =>
      Uint8Array.from(new TextDecoder().decode(await sealed('calm', 'café')), (letter) =>
        letter.charCodeAt(0),
      ),
    /not in UTF-8/,
  ],
  [
    'line ends of another system',
    () => bytesOf(text.replaceAll('\n', '\r\n')),
    /changed or damaged/,
  ],
  [
    'the same in pretty',
    () => bytesOf(JSON.stringify(JSON.parse(text), null, 2)),
    /changed or damaged/,
  ],
  ['the half of it', () => bytesOf(text.slice(0, text.length / 2)), /cut off/],
  ['all but the last letter', () => bytesOf(text.slice(0, -1)), /cut off/],
  ['twice in one file', () => bytesOf(text + text), /changed or damaged/],
  [
    'a picture',
    () => Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a),
    /not in UTF-8|no record/,
  ],
  ['a workbook', () => Uint8Array.of(0x50, 0x4b, 0x03, 0x04), /no record/],
  ['a web page', () => bytesOf('<!doctype html><script>alert(1)</script>'), /no record/],
  ['a list of athletes', () => bytesOf('Name;Squad\nQuib Marn;=1+1'), /no record/],
  ['JSON of somebody else', () => bytesOf('{"format":"others","version":1}'), /no record/],
  ['YAML with an alias', () => bytesOf('format: &a [*a, *a]'), /no record/],
  [
    'a later version',
    () => sealed('"version":1', '"version":2'),
    /version 2, and this page reads version 1/,
  ],
];

function wide(letters: string, isLittle: boolean, hasMark: boolean): Uint8Array<ArrayBuffer> {
  const view = new DataView(new ArrayBuffer((letters.length + 1) * 2));
  const all = (hasMark ? '\ufeff' : '') + letters;
  [...all].forEach((letter, at) => view.setUint16(at * 2, letter.charCodeAt(0), isLittle));
  return new Uint8Array(view.buffer, 0, all.length * 2);
}

describe(`the door of the record refuses ${String(BAD.length + FILES.length)} bad inputs`, () => {
  it.each(BAD)('%s', async (_, from, to, place, reason) => {
    const refused = await refusalOf(await sealed(from, to));
    expect(refused?.message).toMatch(reason);
    expect(refused?.place).toBe(place);
    expect(refused?.message).toMatch(/Nothing was brought in\.$/);
    expect(refused?.message.length).toBeLessThan(1000);
    expect(({} as { isHere?: unknown }).isHere).toBeUndefined();
  });

  it.each(FILES)('%s', async (_, file, reason) => {
    const refused = await refusalOf(await file());
    expect(refused?.message).toMatch(reason);
    expect(refused?.message.length).toBeLessThan(1000);
  });
});

describe('a saved record', () => {
  it('is refused whichever one letter of it is another', async () => {
    const letters = ['"', '0', ' ', '\n', '{', 'é', '\u202e', 'x'];
    const length = text.length;
    expect(length).toBeGreaterThan(1500);
    for (let at = 0; at < length; at += 1) {
      const other = letters.filter((letter) => letter !== text[at])[at % 7]!;
      const flipped = text.slice(0, at) + other + text.slice(at + 1);
      expect([at, await refusalOf(bytesOf(flipped))]).not.toEqual([at, null]);
    }
  });

  it('is refused whichever bit of it is turned, added or lost', async () => {
    const file = bytesOf(text);
    const change = fc.tuple(
      fc.nat(file.length - 1),
      fc.nat(7),
      fc.constantFrom('turn', 'add', 'lose'),
    );
    await fc.assert(
      fc.asyncProperty(change, async ([at, bit, how]) => {
        const turned = (file[at] ?? 0) ^ (1 << bit);
        const put = how === 'lose' ? [] : how === 'turn' ? [turned] : [turned, file[at] ?? 0];
        const bad = Uint8Array.of(...file.subarray(0, at), ...put, ...file.subarray(at + 1));
        expect(await refusalOf(bad)).not.toBeNull();
      }),
      { numRuns: 300 },
    );
  });

  it('is taken with a mark at its front, and with a line end behind it', async () => {
    expect(await refusalOf(bytesOf(text))).toBeNull();
    expect(await refusalOf(bytesOf(`\ufeff${text}`))).toBeNull();
    expect(await refusalOf(bytesOf(`${text}\n`))).toBeNull();
  });
});
