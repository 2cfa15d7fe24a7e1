import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { guessColumns } from '../../src/domain/people/columns';
import { peopleRows } from '../../src/domain/people/exporting';
import { importPeople } from '../../src/domain/people/importing';
import type { Person } from '../../src/domain/people/person';
import { personFrom } from '../../src/domain/people/personFrom';
import {
  guarded,
  readSpreadsheet,
  unguarded,
  writeSpreadsheet,
} from '../../src/records/spreadsheet';
import { SpreadsheetError } from '../../src/records/spreadsheetError';

const utf8 = (text: string) => new TextEncoder().encode(text);
const utf16 = (text: string, isBig: boolean) => {
  const bytes = new Uint8Array(text.length * 2);
  const view = new DataView(bytes.buffer);
  for (let at = 0; at < text.length; at += 1) view.setUint16(at * 2, text.charCodeAt(at), !isBig);
  return bytes;
};
const LIST = 'Name;Squad;Born\r\nŽo Marn;Früh, früh;2013\r\n';

describe('a spreadsheet is read', () => {
  it('into columns with their first contents, and lines with their number', () => {
    const many = ['Name,Squad', ...['A', 'B', 'B', '', 'C', 'D'].map((squad) => `Quib,${squad}`)];
    const { columns, rows } = readSpreadsheet(many.join('\n'));
    expect(columns).toEqual([
      { title: 'Name', samples: ['Quib'] },
      { title: 'Squad', samples: ['A', 'B', 'C'] },
    ]);
    expect(rows[0]).toEqual({ line: 2, cells: ['Quib', 'A'] });
    expect(rows).toHaveLength(6);
  });

  it.each([
    ['a plain text', LIST],
    ['UTF-8', utf8(LIST)],
    ['UTF-8 with its mark', utf8(`\uFEFF${LIST}`)],
    ['UTF-16, little end first', utf16(`\uFEFF${LIST}`, false)],
    ['UTF-16, big end first', utf16(`\uFEFF${LIST}`, true)],
    ['UTF-16 without a mark', utf16(LIST, false)],
    ['UTF-16 without a mark, big end first', utf16(LIST, true)],
    ['tabs', utf8(LIST.replaceAll(';', '\t'))],
    ['commas', utf8('Name,Squad,Born\nŽo Marn,"Früh, früh",2013\n')],
    ['old line ends', utf8(LIST.replaceAll('\r\n', '\r'))],
    ['a first line that names the separator', utf8(`sep=;\r\n${LIST}`)],
  ])('from %s', (_, content) => {
    const { columns, rows, isGuess } = readSpreadsheet(content);
    expect(columns.map(({ title }) => title)).toEqual(['Name', 'Squad', 'Born']);
    expect(rows.map(({ cells }) => cells)).toEqual([['Žo Marn', 'Früh, früh', '2013']]);
    expect(isGuess).toBe(false);
  });

  it('from Windows-1252 by a guess, and says that it is one', () => {
    const bytes = Uint8Array.from('Name;Squad\nÑu Marn;Fr\u00FCh', (letter) =>
      letter.charCodeAt(0),
    );
    const { rows, isGuess } = readSpreadsheet(bytes);
    expect(rows[0]?.cells).toEqual(['Ñu Marn', 'Früh']);
    expect(isGuess).toBe(true);
  });

  it('without titles too', () => {
    const { columns, rows } = readSpreadsheet('Quib Marn,2013\nŽo Vell,2012');
    expect(columns.map(({ title }) => title)).toEqual(['Column 1', 'Column 2']);
    expect(rows.map(({ line }) => line)).toEqual([1, 2]);
    expect(guessColumns(columns)).toEqual(['name', 'birthYear']);
  });

  it('and counts the lines as an editor does: empty ones, and those inside a cell', () => {
    const { rows } = readSpreadsheet('Name,Notes\n\nA,"one\r\ntwo"\n,\nB,"x"\n"C\nc",y\nD,z\n');
    expect(rows.map(({ line, cells }) => [line, cells[0]])).toEqual([
      ...[
        [3, 'A'],
        [6, 'B'],
        [7, 'C\nc'],
        [9, 'D'],
      ],
    ]);
    const { rows: said } = readSpreadsheet('sep=,\nName\nA');
    expect(said[0]?.line).toBe(3);
  });

  it.each<[string, string | Uint8Array, RegExp]>([
    ['empty', '', /empty. Choose one/],
    ['only empty lines', '\n,,\n \n', /empty/],
    ['a workbook', Uint8Array.of(0x50, 0x4b, 0x03, 0x04, 0x14), /save the list as CSV/],
    ['an old workbook', Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0), /save the list as CSV/],
    ['bytes of something else', Uint8Array.of(65, 0, 0, 0, 66, 1, 2, 3), /no text file/],
    ['too large', new Uint8Array(5 * 1024 * 1024 + 1), /5\.0 MB; at most 5 MB.*choose it again/],
    ['fifty megabytes', 'x'.repeat(50 * 1024 * 1024), /50\.0 MB/],
    ['too many lines', 'Name\n'.repeat(6000), /more than 5000 lines. Delete/],
    ['too many columns', `Name${','.repeat(80)}\nQuib`, /81 columns; at most 60/],
    ['a quotation mark that never closes', 'Name,X\nQ,1\n"Marn,2\nVell,3', /^Line 3: a quotation/],
  ])('and refused where it is %s', (_, content, say) => {
    const read = () => readSpreadsheet(content);
    expect(read).toThrow(SpreadsheetError);
    expect(read).toThrow(say);
  });

  it('and a title such as __proto__ is a title like any other', () => {
    const { columns, rows } = readSpreadsheet('Name,__proto__,constructor\nQuib,1,2');
    expect(columns.map(({ title }) => title)).toEqual(['Name', '__proto__', 'constructor']);
    expect(rows[0]?.cells).toEqual(['Quib', '1', '2']);
    expect(Object.prototype).not.toHaveProperty('0');
  });

  it('never throws anything but what says what to do', () => {
    const anything = fc.oneof(fc.string({ unit: 'binary' }), fc.uint8Array({ maxLength: 200 }));
    fc.assert(
      fc.property(anything, (content) => {
        try {
          readSpreadsheet(content);
        } catch (error) {
          expect(error).toBeInstanceOf(SpreadsheetError);
        }
      }),
    );
  });
});

describe('OWASP CSV Injection: a cell that may be a formula', () => {
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '\n=1', '＝1', "'=1", "''-1"])(
    '%j begins with an apostrophe in the file and not any more once it is read',
    (cell) => {
      expect(guarded(cell)).toBe(`'${cell}`);
      expect(unguarded(guarded(cell))).toBe(cell);
    },
  );

  it.each(['Quib', "O'Brien", "'quoted'", '2-3', ' =1', ''])('%j is left as it is', (cell) => {
    expect(guarded(cell)).toBe(cell);
    expect(unguarded(cell)).toBe(cell);
  });

  it('is guarded in every column of the file', () => {
    const text = writeSpreadsheet([
      ['=A1', 'x'],
      ['y', '@B, "z"'],
    ]);
    expect(text).toBe('\uFEFF\'=A1,x\r\ny,"\'@B, ""z"""\r\n');
  });
});

describe('what is exported is imported again', () => {
  const today = '2031-06-01';
  const word = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 });
  const risky = fc.constantFrom('', '=', "'=", "''", '+', '-', '@', '"', ';', ',\n', "'");
  const text = fc.tuple(risky, word).map((parts) => parts.join(''));
  const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
  const tenths = (from: number, to: number) =>
    maybe(fc.integer({ min: from * 10, max: to * 10 }).map((value) => `${String(value / 10)} mm`));
  const person = fc
    .record({
      ...{
        name: text,
        squad: maybe(text),
        mindText: maybe(fc.array(text).map((all) => all.join('\n'))),
      },
      birthYear: maybe(fc.integer({ min: 1921, max: 2026 }).map(String)),
      sex: maybe(fc.constantFrom('female', 'male')),
      ...{ stature: tenths(1000, 2300), knee: tenths(250, 700) },
      angleTool: maybe(fc.constantFrom('eye', 'inclinometer', 'goniometer', 'tilt-sensor')),
      guardianAgreedOn: maybe(fc.constantFrom('2031-06-01', '2030-02-28')),
    })
    .map((fields) => personFrom(fields, { id: 'x', today }).person)
    .filter((one) => one !== null);

  it('exactly, whatever is in it', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(person, {
          minLength: 1,
          selector: ({ name, birthYear }) =>
            `${name.normalize('NFKD').toLowerCase()}|${String(birthYear)}`,
        }),
        (people: Person[]) => {
          const { columns, rows } = readSpreadsheet(utf8(writeSpreadsheet(peopleRows(people))));
          const fields = guessColumns(columns);
          const read = importPeople(rows, columns, fields, { today, newId: () => 'x', known: [] });
          expect(read.problems).toEqual([]);
          const doubled = new Set(read.doubles.map(({ name }) => name));
          const kept = people.filter(({ name }) => !doubled.has(name));
          expect(read.people?.filter(({ name }) => !doubled.has(name))).toEqual(kept);
        },
      ),
      { numRuns: 300 },
    );
  });
});
