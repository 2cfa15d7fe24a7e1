import type { Problem } from './problem';
import type { Sources } from './reading';

/**
 * Sentences that the scripts of another language have and these have not, or with other
 * placeholders: a session would stop in the middle for want of them.
 */
export function linesMissing(sources: Sources, others: Sources, other: string): Problem[] {
  const own = linesOf(sources);
  const [says] = sources.lines;
  return [...linesOf(others)].flatMap(([key, { text }]) => {
    const line = own.get(key);
    if (line === undefined)
      return says ? [says.problemAt([key], `is missing; the language "${other}" has it`)] : [];
    const wanted = placeholdersIn(text);
    if (placeholdersIn(line.text) === wanted) return [];
    return [line.at.problemAt([key], `must have these placeholders: ${wanted || 'none'}`)];
  });
}

const linesOf = ({ lines }: Sources) =>
  new Map(
    lines.flatMap((at) =>
      Object.entries(at.value ?? {}).map(([key, line]) => [
        key,
        { text: typeof line === 'string' ? line : line.text, at },
      ]),
    ),
  );

const placeholdersIn = (text: string): string =>
  [...new Set(text.match(/\{[\w-]+\}/g))].sort().join(' ');
