import { findingCells, headOf } from './cells';
import type { ReadinessSheet } from './readinessSheet';

/** What fits a terminal, a printed page and a mail. */
const COLUMNS = 80;

/** The sheet as plain text, at most 80 letters a line, ended by a line end. */
export function textSheet(sheet: ReadinessSheet): string {
  const { title } = sheet;
  const head = headOf(sheet);
  const width = Math.max(...head.map(([name]) => letters(name))) + 2;
  const lines: string[] = [
    ...wrapped(title('title')),
    '='.repeat(Math.min(COLUMNS, letters(title('title')))),
    ...wrapped(sheet.notices[0] ?? ''),
    '',
    ...head.flatMap(([name, words]) => hanging(`${name}:`.padEnd(width), words)),
  ];
  const part = (name: string, body: string[]) => {
    if (body.length > 0) lines.push('', title(name), '-'.repeat(letters(title(name))), ...body);
  };
  part(
    'flags',
    sheet.redFlags.flatMap(({ words }) => bullet(words)),
  );
  part(
    'areas',
    sheet.areas.flatMap(({ area, outcome, sentence, reasons }) => [
      ...wrapped(`${area.words}: ${outcome.words}`),
      ...[sentence, ...reasons].flatMap((each) => hanging('  ', each)),
    ]),
  );
  part(
    'findings',
    sheet.findings.flatMap((finding) => {
      const { what, side, result, faults, angle, load, hurts } = findingCells(sheet, finding);
      const about = [side, load].filter((each) => each !== '').join(', ');
      const details = [faults, angle, hurts === '' ? '' : `${title('hurts')} ${hurts}`];
      const found = [result, ...details.filter((each) => each !== '')].join('; ');
      return bullet(`${about === '' ? what : `${what} (${about})`}: ${found}`);
    }),
  );
  part(
    'measured',
    sheet.measured.flatMap(({ check, told }) => [
      ...wrapped(check),
      ...told.flatMap((each) => bullet(each)),
    ]),
  );
  const ready = sheet.liftsReady.map(({ words }) => words).join(', ') || title('none');
  part('lifts', [
    ...hanging(`${title('lifts-ready')}: `, ready),
    ...(sheet.liftsMissing.length > 0
      ? [`${title('lifts-missing')}:`, ...sheet.liftsMissing.flatMap(bullet)]
      : []),
  ]);
  const homework = [
    ...sheet.homework.flatMap(({ area, name, dose, details }) => [
      ...wrapped(`${area.words}: ${name}, ${dose}`),
      ...details.flatMap((each) => hanging('  ', each)),
    ]),
    ...sheet.noHomework.flatMap((each) => wrapped(each)),
  ];
  part('homework', homework.length > 0 ? homework : wrapped(title('no-homework')));
  part('next', wrapped(`${sheet.next.date ?? title('no-date')}. ${sheet.next.because}`));
  part('notes', sheet.notes.flatMap(bullet));
  part('cautions', [...sheet.cautions, ...sheet.notices].flatMap(bullet));
  part('sources', sheet.sources.flatMap(bullet));
  return `${lines.join('\n')}\n`;
}

const letters = (text: string): number => [...text].length;
const wrapped = (text: string): string[] => hanging('', text);
const bullet = (text: string): string[] => hanging('- ', text);

/** The text after `lead`, its further lines as far in; a word that is longer than a line is cut. */
function hanging(lead: string, text: string): string[] {
  const inset = ' '.repeat(letters(lead));
  const most = COLUMNS - letters(lead);
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((one) => pieces(one, most))) {
    if (line !== '' && letters(line) + 1 + letters(word) > most) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].map((each, at) => `${at === 0 ? lead : inset}${each}`.trimEnd());
}

function pieces(word: string, most: number): string[] {
  const all = [...word];
  return Array.from({ length: Math.max(1, Math.ceil(all.length / most)) }, (_, at) =>
    all.slice(at * most, (at + 1) * most).join(''),
  );
}
