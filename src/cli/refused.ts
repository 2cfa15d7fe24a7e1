/** The input was refused: with what, where, and what to do (exit 1). */
export class Refused extends Error {
  override readonly name = 'Refused';
}

/** The command was called wrongly (exit 2). */
export class WrongUsage extends Error {
  override readonly name = 'WrongUsage';
}
