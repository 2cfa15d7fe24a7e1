/** A failure that a person can mend: its message says what is wrong and what to do. */
export class ServingTrouble extends Error {}

/**
 * Runs a command's main function; a ServingTrouble is printed without a stack and ends with its
 * exit code (1, or 2 for wrong usage), anything else with its stack and 1.
 * @param {() => Promise<void>} main
 */
export async function runCommand(main) {
  try {
    await main();
  } catch (error) {
    console.error(error instanceof ServingTrouble ? `\n${error.message}` : error);
    process.exitCode = error instanceof UsageTrouble ? 2 : 1;
  }
}

/** A command line that cannot be read. */
export class UsageTrouble extends ServingTrouble {}
