const SAY_THEMSELVES = ['RecordError', 'SpreadsheetError', 'WrongPassphrase'];

/** What a problem of the record or of a spreadsheet says itself, else `otherwise`. */
export function saidBy(error: unknown, otherwise: string): string {
  const says = error instanceof Error && SAY_THEMSELVES.includes(error.name);
  return says ? error.message : otherwise;
}
