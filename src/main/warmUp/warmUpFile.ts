import { stringify } from 'yaml';
import { warmUpSchema } from '../../cues/schemas/warmUp';
import { sourceOf } from '../../cues/sourceFile';
import type { CueBook } from '../../domain/script';
import { warmUpProblems, wordingProblems } from '../../domain/warmUp/problems';
import type { WarmUp } from '../../domain/warmUp/warmUp';

/** Far more than the longest warm-up takes. */
const MOST_BYTES = 200_000;
/** The first tell what to mend. */
const PROBLEMS_SHOWN = 3;

/** A file as it stands in scripts-cues/LANGUAGE/warm-ups. */
export const warmUpText = (warmUp: WarmUp): string =>
  `# yaml-language-server: $schema=../../warm-up.schema.json\n${stringify(warmUp)}`;

/**
 * A warm-up out of a file, YAML or JSON, held to the schema of the scripts; or why it is none, with
 * the line of each problem.
 */
export async function readWarmUp(
  file: Pick<File, 'name' | 'size' | 'text'>,
  book: CueBook,
  secondsOf: (text: string) => number,
): Promise<{ warmUp: WarmUp } | { say: string }> {
  if (file.size > MOST_BYTES)
    return { say: `${file.name} is too large to be a warm-up. Choose the file of one.` };
  try {
    const { value, problems, problemAt } = sourceOf(file.name, await file.text(), warmUpSchema);
    const found =
      value === null
        ? problems
        : [...warmUpProblems(book, value), ...wordingProblems(book, value, secondsOf)].map(
            ({ path, problem }) => problemAt(path, problem),
          );
    if (value !== null && found.length === 0) return { warmUp: value };
    const told = found
      .slice(0, PROBLEMS_SHOWN)
      .map(({ line, field, problem }) => `line ${line}, ${field || 'the whole'}: ${problem}`);
    const more = found.length - told.length;
    return {
      say: `${file.name} is no warm-up that can be led: ${told.join('; ')}${more > 0 ? `; and ${more} more` : ''}. Nothing was brought in.`,
    };
  } catch {
    return { say: `${file.name} could not be read as YAML or JSON. Nothing was brought in.` };
  }
}
