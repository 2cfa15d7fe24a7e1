import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedHandover } from '../../../src/domain/handover/refused';
import { mustFitBook } from '../../../src/domain/handover/checking';
import { canonicalJson } from '../../../src/domain/keeping/canonical';
import { crc32 } from '../../../src/domain/keeping/checksum';
import { pack } from '../../../src/main/homework/packing';
import { readHandedOver, readHandedOverFile } from '../../../src/main/homework/reading';
import { homeworkText, reportText } from '../../../src/main/homework/writing';
import { ADDRESS, book, HANDOVER, MADE_AT, NOW, REPORT } from './examples';
import { BAD_HOMEWORK } from './hostileFields';
import { BAD_REPORTS } from './hostileReports';

const HOMEWORK = homeworkText(HANDOVER);
const CAME_BACK = reportText(REPORT, MADE_AT);

/** As the page takes it: read, and held against the cues. What was refused, or null. */
async function refusalOf(read: Promise<Awaited<ReturnType<typeof readHandedOver>>>) {
  try {
    const handed = await read;
    if (handed.what === 'homework') mustFitBook(book, handed.handover);
    return null;
  } catch (error) {
    expect(error).toBeInstanceOf(RefusedHandover);
    return error as RefusedHandover;
  }
}
const ofText = (text: string) => refusalOf(readHandedOver(text, NOW));

/** Homework or a report with this put in place of that, and a checksum that fits: somebody meant it. */
function sealed(text: string, from: string | RegExp, to: string): string {
  const changed = text.replace(from, () => to);
  expect(changed).not.toBe(text);
  // What is no JSON any more has no checksum that fits.
  try {
    const { checksum, ...rest } = JSON.parse(changed) as Record<string, unknown>;
    return changed.replace(String(checksum), crc32(canonicalJson(rest)));
  } catch {
    return changed;
  }
}

const link = async (what: string, text: string) => `${ADDRESS}#${what}=${await pack(text)}`;
const bytes = (...those: number[]) => Uint8Array.of(...those);
const utf16 = (letters: string) =>
  Uint8Array.from(
    [0xfeff, ...[...letters].map((letter) => letter.charCodeAt(0))].flatMap((code) => [
      code & 255,
      code >> 8,
    ]),
  );

/** Whole inputs, by link, pasted text or file. */
const WHOLE: [what: string, input: () => Promise<string | Blob>, reason: RegExp][] = [
  ['nothing', async () => '', /neither homework nor/],
  ['words', async () => 'do your squats', /neither homework nor/],
  [
    'a page of markup',
    async () => '<html><script>alert(1)</script></html>',
    /neither homework nor/,
  ],
  ['a formula', async () => '=HYPERLINK("https://bad.example")', /neither homework nor/],
  ['a number', async () => '17', /neither homework nor/],
  ['null', async () => 'null', /neither homework nor/],
  ['a list', async () => '[]', /neither homework nor/],
  ['a link with nothing behind it', async () => `${ADDRESS}#homework=`, /cut off or changed/],
  [
    'a link that was cut off',
    async () => (await link('homework', HOMEWORK)).slice(0, -20),
    /cut off or changed/,
  ],
  [
    'a link whose middle is lost',
    async () => (await link('report', CAME_BACK)).replace(/(?<=.{150}).{10}/, ''),
    /cut off or changed/,
  ],
  [
    'a link of letters that mean nothing',
    async () => `${ADDRESS}#homework=${'A'.repeat(400)}`,
    /cut off or changed/,
  ],
  [
    'a link of 50 MB',
    async () => `${ADDRESS}#homework=${'A'.repeat(50 * 1024 * 1024)}`,
    /50\.0 MB or more; at most 4 MB/,
  ],
  [
    'a link that unpacks to 50 MB of spaces',
    async () => link('homework', ' '.repeat(50 * 1024 * 1024)),
    /at most 4 MB/,
  ],
  [
    'a link that unpacks to no UTF-8',
    async () => `${ADDRESS}#homework=S_0DAA`,
    /cut off or changed/,
  ],
  [
    'a link to markup',
    async () => link('homework', '<script>alert(1)</script>'),
    /cut off or changed/,
  ],
  [
    'homework whose checksum is of another',
    async () => HOMEWORK.replace('bell-hinge', 'bench-hinge'),
    /cut off or changed/,
  ],
  [
    'homework without a checksum',
    async () => HOMEWORK.replace(/"checksum":"\w+",/, ''),
    /cut off or changed/,
  ],
  ['a record instead', async () => '{"format":"sayso-record","version":1}', /neither homework nor/],
  [
    'a file of 50 MB',
    async () => new Blob([new Uint8Array(50 * 1024 * 1024)]),
    /50\.0 MB or more; at most 4 MB/,
  ],
  ['an empty file', async () => new Blob([]), /The file is empty/],
  ['a file in UTF-16', async () => new Blob([utf16(HOMEWORK)]), /UTF-16/],
  ['a file in Latin-1', async () => new Blob([bytes(0x7b, 0x22, 0xe4, 0x22)]), /not in UTF-8/],
  [
    'a picture',
    async () => new Blob([bytes(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)]),
    /not in UTF-8/,
  ],
  ['a million empty lists', async () => `{"a":[${'[],'.repeat(1e6)}[]]}`, /so many lists/],
];

const ALL = BAD_HOMEWORK.length + BAD_REPORTS.length + WHOLE.length;

describe(`homework and what comes back: ${String(ALL)} hostile inputs are refused, each with why and what to do`, () => {
  const refused = async (
    what: 'homework' | 'report',
    text: string,
    place: string,
    reason: RegExp,
    todo: RegExp,
  ) => {
    for (const way of [text, await link(what, text)]) {
      const refusal = await ofText(way);
      expect(refusal?.message).toMatch(reason);
      expect(refusal?.place).toBe(place);
      expect(refusal?.message).toMatch(todo);
      expect(refusal?.message.length).toBeLessThan(1000);
    }
    expect(({} as { isHere?: unknown }).isHere).toBeUndefined();
  };

  it.each(BAD_HOMEWORK)('homework with %s', (_, from, to, place, reason) =>
    refused(
      'homework',
      sealed(HOMEWORK, from, to),
      place,
      reason,
      /Ask your coach|newest page|sent again/,
    ),
  );

  it.each(BAD_REPORTS)('a report with %s', (_, from, to, place, reason) =>
    refused('report', sealed(CAME_BACK, from, to), place, reason, /Ask the athlete|sent again/),
  );

  it.each(WHOLE)('%s', async (_, input, reason) => {
    const given = await input();
    const refusal = await (typeof given === 'string'
      ? ofText(given)
      : refusalOf(readHandedOverFile(given, NOW)));
    expect(refusal?.message).toMatch(reason);
    expect(refusal?.message.length).toBeLessThan(1000);
  });

  it('a link is refused whichever letter of it is another', async () => {
    const whole = await link('homework', HOMEWORK);
    const from = whole.indexOf('=') + 1;
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: from, max: whole.length - 3 }),
        fc.constantFrom(...'AZaz09-_'),
        async (at, letter) => {
          if (whole[at] === letter) return;
          const changed = whole.slice(0, at) + letter + whole.slice(at + 1);
          expect(await ofText(changed)).not.toBeNull();
        },
      ),
      { numRuns: 300 },
    );
  });
});
