import { csvSheet } from '../domain/reporting/sheet/csvSheet';
import { fhirSheet } from '../domain/reporting/sheet/fhirSheet';
import { htmlSheet } from '../domain/reporting/sheet/htmlSheet';
import type { ReadinessSheet } from '../domain/reporting/sheet/readinessSheet';
import { textSheet } from '../domain/reporting/sheet/textSheet';
import { writeSpreadsheet } from './spreadsheet';

/** A readiness sheet as the text of a file, and how such a file is called. */
export interface ReadinessForm {
  write: (sheet: ReadinessSheet) => string;
  /** Behind the dot of its name. */
  ending: string;
  /** MIME type. */
  type: string;
}

/** Every form that a readiness sheet is written in; `fhir` is FHIR R4 as JSON. */
export const READINESS_FORMS = {
  text: { write: textSheet, ending: 'txt', type: 'text/plain;charset=utf-8' },
  html: { write: htmlSheet, ending: 'html', type: 'text/html;charset=utf-8' },
  csv: {
    write: (sheet) => writeSpreadsheet(csvSheet(sheet)),
    ending: 'csv',
    type: 'text/csv;charset=utf-8',
  },
  fhir: {
    write: (sheet) => JSON.stringify(fhirSheet(sheet)),
    ending: 'json',
    type: 'application/fhir+json',
  },
} satisfies Record<string, ReadinessForm>;

export type ReadinessFormName = keyof typeof READINESS_FORMS;
