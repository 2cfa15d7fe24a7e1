/** Thrown where a file is not a list of people that can be read; the message says what to do. */
export class SpreadsheetError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'SpreadsheetError';
  }
}
