/** A finding in the words of a table, the same in each form of the sheet. */
import type { ReadinessSheet, SheetFinding } from './readinessSheet';

/** Titles of the columns of what was found, in their order. */
export const FINDING_COLUMNS = [
  'what',
  'side',
  'result',
  'faults',
  'angle',
  'load',
  'hurts',
] as const;

/** The cells of one finding; empty where nothing was said. */
export const findingCells = (
  { title }: Pick<ReadinessSheet, 'title'>,
  { what, side, result, faults, angle, load, pain, painKind, isCorrected }: SheetFinding,
): Record<(typeof FINDING_COLUMNS)[number], string> => ({
  what,
  side: side?.words ?? '',
  result: isCorrected ? `${result.words} (${title('corrected')})` : result.words,
  faults: faults.map(({ words }) => words).join(', '),
  angle: angle === null ? '' : `${angle.degrees}° (${angle.tool.words})`,
  load: load?.words ?? '',
  hurts: [
    pain === null ? '' : pain === 'unanswered' ? title('pain-unsaid') : `${pain}/10`,
    painKind?.words ?? '',
  ]
    .filter((part) => part !== '')
    .join(', '),
});

/** Who, when, what and how it ended, as pairs of title and words. */
export const headOf = (sheet: ReadinessSheet): [title: string, words: string][] => [
  [sheet.title('who'), sheet.who ?? sheet.title('nobody')],
  [sheet.title('date'), sheet.startedAt.slice(0, 10)],
  [sheet.title('routine'), sheet.routine.words],
  [sheet.title('way'), sheet.way.words],
  [sheet.title('end'), sheet.ended.words],
];
