import { describe, expect, it } from 'vitest';
import { readSpreadsheet, writeSpreadsheet } from '../../../../src/records/spreadsheet';
import type { Entry } from '../../../../src/domain/log';
import { csvSheet } from '../../../../src/domain/reporting/sheet/csvSheet';
import { htmlSheet } from '../../../../src/domain/reporting/sheet/htmlSheet';
import { initialsOf, plain } from '../../../../src/domain/reporting/sheet/plain';
import {
  readinessSheet,
  type SheetAsked,
} from '../../../../src/domain/reporting/sheet/readinessSheet';
import { textSheet } from '../../../../src/domain/reporting/sheet/textSheet';
import { bookFor, NAMES, sessionOf, type SessionName } from '../../../timelines/sessions';

const entriesOf = (name: SessionName): Entry[] => sessionOf(name).entries;
const sheetOf = (name: SessionName, asked?: SheetAsked, entries = entriesOf(name)) =>
  readinessSheet(bookFor(name), entries, asked);
const cellsOf = (name: SessionName, asked?: SheetAsked) => {
  const { columns, rows } = readSpreadsheet(writeSpreadsheet(csvSheet(sheetOf(name, asked))));
  return rows.map(({ cells }) =>
    Object.fromEntries(columns.map(({ title }, at) => [title, cells[at] ?? ''])),
  );
};

describe('what a readiness sheet says', () => {
  it('has each area with its outcome and reasons, the lifts, homework with dose, and the date', () => {
    const text = textSheet(sheetOf('three-areas'));
    for (const said of [
      'Overhead reach: Ready to be taught',
      'Squat: Working',
      'The standing reach: came back, and held when it was tested again.',
      'The hinge with the bar: not tested, since the unloaded check did not hold.',
      'May be taught next: Presses',
      'Squat: The goblet squat, 3 sets of 6',
      '2026-01-12. A week of homework first',
      'The unloaded hinge, tested again: position given up; knees forward',
      'The goblet squat (lighter): held',
      'How it ended:    done to its end',
    ]) {
      expect(text).toContain(said);
    }
  });

  it.each(NAMES)('says that it is no diagnosis, and whom it defers to: %s', (name) => {
    const sheet = sheetOf(name);
    const [notice] = sheet.notices;
    expect(notice).toMatch(/not a diagnosis.*licensed practice|no es un diagnóstico.*titulado/);
    for (const text of [textSheet(sheet), htmlSheet(sheet), JSON.stringify(csvSheet(sheet))]) {
      expect(text.replace(/\s+/g, ' ')).toContain(notice);
    }
    expect(sheet.cautions.length).toBeGreaterThan(0);
  });

  it('says of no check that it was tested again which had to wait at first', () => {
    const text = textSheet(sheetOf('spanish-hinge'));
    expect(text).toContain('- La bisagra libre, probado otra vez: se mantuvo');
    expect(text).toContain('- La bisagra con barra: se mantuvo');
  });

  it('has the angle with its tool, and the difference of the sides', () => {
    const text = textSheet(sheetOf('three-areas'));
    expect(text).toContain('The lifted arm (left): held; 160° (eye)');
    expect(text).toContain('Left and right differ by 5 degrees');
  });

  it('has the pain with its number and its kind', () => {
    expect(textSheet(sheetOf('pain-7'))).toMatch(/: pain; Pain 7\/10/);
    const sharp = cellsOf('pain-sharp').find((row) => row['pain kind'] !== '');
    expect(sharp).toMatchObject({ part: 'finding', result: 'pain', 'pain kind': 'sharp' });
    expect(textSheet(sheetOf('pain-sharp'))).toMatch(/Pain \d\/10, sharp/);
  });

  it('has the warning sign that ended it, no lift and no homework, in each form', () => {
    const sheet = sheetOf('red-flag');
    expect(sheet.redFlags).toHaveLength(1);
    const { words } = sheet.redFlags[0]!;
    const text = textSheet(sheet);
    expect(text).toContain(`Warning signs\n-------------\n- ${words}`);
    expect(text).toContain('May be taught next: none');
    expect(text).toContain('ended on a warning sign');
    expect(htmlSheet(sheet)).toContain(`<h2>Warning signs</h2>\n<ul><li>${words}</li>`);
    expect(cellsOf('red-flag')).toContainEqual(
      expect.objectContaining({ part: 'warning sign', words }),
    );
  });

  it('says of a session that broke off that it is not complete', () => {
    const broken = entriesOf('three-areas').slice(0, 12);
    expect(textSheet(sheetOf('three-areas', {}, broken))).toContain(
      'never ended, so it is not complete',
    );
    expect(textSheet(sheetOf('silence'))).toContain('broke off, so it is not complete');
  });

  it('counts a finding as it was put right, and says so', () => {
    const entries = entriesOf('three-areas');
    const { id, type, ...finding } = entries.find((entry) => entry.type === 'finding')!;
    expect(type).toBe('finding');
    const corrected = {
      ...finding,
      ...{ type: 'corrected', id: 'rehearsal:cli:9999', entry: id, of: null, result: 'short' },
      ...{ painKind: null, correctedAt: '2026-01-05T10:00:00.000Z' },
    } as unknown as Entry;
    const text = textSheet(sheetOf('three-areas', {}, [...entries, corrected]));
    expect(text).toContain('The lifted arm (left): range short (put right after the session)');
  });

  it('is written in the language of the session', () => {
    const text = textSheet(sheetOf('spanish-hinge'));
    expect(text).toContain('Hoja de preparación');
    expect(text).not.toMatch(/Readiness|Homework|Cautions/);
    expect(htmlSheet(sheetOf('spanish-hinge'))).toContain('<html lang="es">');
  });
});

describe('who it is of', () => {
  it.each([
    ['Quib Marn', 'Q. M.'],
    ['  vennel  ashgrove-tarn ', 'V. A. T.'],
    ['Édda O’Lorne', 'É. O.'],
    ['李', '李.'],
    ['...', ''],
  ])('%s is %s', (name, initials) => expect(initialsOf(name)).toBe(initials));

  it('is nobody unless a name is given, initials then, and the name only where it is asked for', () => {
    expect(textSheet(sheetOf('stopped'))).toContain('Athlete:         not named');
    const initials = sheetOf('stopped', { name: 'Quib Marn' });
    expect([textSheet, htmlSheet].map((write) => write(initials)).join()).not.toContain('Quib');
    expect(textSheet(initials)).toContain('Athlete:         Q. M.');
    const whole = sheetOf('stopped', { name: 'Quib Marn', nameAs: 'whole' });
    expect(textSheet(whole)).toContain('Athlete:         Quib Marn');
  });
});

/** Each as a name and as a note. */
const HOSTILE = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  '</title></style><b>&amp;',
  '=HYPERLINK("http://a.invalid","x")',
  '+1+1',
  '@SUM(A1)',
  '-2+3|cmd',
  '\t=1+1',
  'Quib\r\nDate: 1999-01-01\n',
  'Quib \u202Enraq\u2066 Marn\u0000\u0007',
  '\uD800 half',
  'a'.repeat(5000),
  '"; DROP TABLE,\n;',
  '${7*7}{{7*7}}',
];

describe(`names and notes that are meant to do harm (${HOSTILE.length} of them)`, () => {
  it.each(HOSTILE.map((text) => [text.slice(0, 40), text]))('stay words: %j', (_, hostile) => {
    const asked: SheetAsked = { name: hostile, nameAs: 'whole', notes: [hostile] };
    const sheet = sheetOf('stopped', asked);
    const lines = textSheet(sheet).split('\n');
    expect(Math.max(...lines.map((line) => [...line].length))).toBeLessThanOrEqual(80);
    expect(lines.join('')).not.toMatch(/[\p{Cc}\p{Cs}\u202A-\u202E\u2066-\u2069]/u);
    expect(lines.filter((line) => /^Date:/.test(line))).toEqual(['Date:            2026-01-05']);

    const html = htmlSheet(sheet);
    const known = htmlSheet(sheetOf('stopped', { ...asked, name: 'Quib Marn', notes: ['x'] }));
    const tags = (text: string) => text.match(/<[^>]*>/g);
    expect(tags(html)).toEqual(tags(known));
    expect(html).not.toMatch(/<script|onerror=alert\(1\)>/i);

    const csv = writeSpreadsheet(csvSheet(sheet));
    const noted = cellsOf('stopped', asked).filter(({ part }) => part === 'note');
    expect(noted.map(({ words }) => words)).toEqual([plain(hostile, 2000)]);
    expect(csv).not.toMatch(/(^|,|\r\n)"?[=+@\t-]/);
  });
});

it('the HTML is whole in itself: no script, nothing fetched, light, with a page for paper', () => {
  const html = htmlSheet(sheetOf('three-areas', { name: 'Quib Marn' }));
  expect(html).not.toMatch(/<script|<link|<img|src=|url\(|https?:/i);
  expect(html).toContain('color-scheme: light');
  expect(html).toContain('@media print');
  expect(html).toContain(`content="default-src 'none'; style-src 'unsafe-inline'"`);
});
