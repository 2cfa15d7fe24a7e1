import type { ReadinessSheet } from './readinessSheet';

/** Titles of the columns; ids and numbers, so that another program can count with them. */
const COLUMNS = [
  'part',
  'area',
  'what',
  'side',
  'result',
  'faults',
  'angle degrees',
  'angle tool',
  'load',
  'pain of 10',
  'pain kind',
  'words',
] as const;
type Column = (typeof COLUMNS)[number];

/**
 * The sheet as lines of a spreadsheet, titles first, one fact a line; `part` says what it is of.
 * Whoever writes them as a file guards cells that could be formulas (`writeSpreadsheet`).
 */
export function csvSheet(sheet: ReadinessSheet): string[][] {
  const rows: Partial<Record<Column, string>>[] = [
    { part: 'notice', words: sheet.notices.join(' ') },
    { part: 'who', words: sheet.who ?? '' },
    { part: 'date', words: sheet.startedAt },
    { part: 'routine', what: sheet.routine.is, words: sheet.routine.words },
    { part: 'way', what: sheet.way.is, words: sheet.way.words },
    { part: 'end', result: sheet.ended.is, words: sheet.ended.words },
    ...sheet.redFlags.map(({ is, words }) => ({ part: 'warning sign', what: is, words })),
    ...sheet.areas.flatMap(({ area, outcome, sentence, reasons }) => [
      { part: 'outcome', area: area.is, result: outcome.is, words: sentence },
      ...reasons.map((words) => ({ part: 'reason', area: area.is, words })),
    ]),
    ...sheet.findings.map((finding) => ({
      part: finding.isRetest ? 'finding, tested again' : 'finding',
      area: finding.area?.is ?? '',
      what: finding.prompt,
      side: finding.side?.is ?? '',
      result: finding.result.is,
      faults: finding.faults.map(({ is }) => is).join(' '),
      'angle degrees': finding.angle === null ? '' : String(finding.angle.degrees),
      'angle tool': finding.angle?.tool.is ?? '',
      load: finding.load?.is ?? '',
      'pain of 10': finding.pain === null ? '' : String(finding.pain),
      'pain kind': finding.painKind?.is ?? '',
      words: [
        finding.what,
        ...finding.faults.map(({ words }) => words),
        ...(finding.isCorrected ? [sheet.title('corrected')] : []),
      ].join(', '),
    })),
    ...sheet.measured.flatMap(({ check, told }) =>
      told.map((words) => ({ part: 'angles', what: check, words })),
    ),
    ...sheet.liftsReady.map(({ is, words }) => ({ part: 'lift, may be taught', what: is, words })),
    ...sheet.liftsMissing.map((words) => ({ part: 'lift, not yet', words })),
    ...sheet.homework.map(({ area, name, dose, details }) => ({
      part: 'homework',
      area: area.is,
      what: name,
      result: dose,
      words: details.join(' '),
    })),
    ...sheet.noHomework.map((words) => ({ part: 'no homework', words })),
    { part: 'next date', result: sheet.next.date ?? '', words: sheet.next.because },
    ...sheet.notes.map((words) => ({ part: 'note', words })),
    ...sheet.cautions.map((words) => ({ part: 'caution', words })),
    ...sheet.sources.map((words) => ({ part: 'source', words })),
  ];
  return [[...COLUMNS], ...rows.map((row) => COLUMNS.map((column) => row[column] ?? ''))];
}
