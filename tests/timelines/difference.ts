/** How many lines of each text are shown from the first that differs. */
const SHOWN = 4;
/** How many lines before it. */
const BEFORE = 2;

/**
 * What a reader needs to see of two texts that differ: the place, what was kept, what came. Empty
 * where they are the same.
 */
export function difference(kept: string, came: string): string {
  if (kept === came) return '';
  const [keptLines, cameLines] = [kept.split('\n'), came.split('\n')];
  const at = cameLines.findIndex((line, index) => line !== keptLines[index]);
  const from = at < 0 ? cameLines.length : at;
  const part = (lines: string[], mark: string) =>
    lines.slice(from, from + SHOWN).map((line) => `${mark} ${line}`);
  return [
    `from line ${from + 1} on:`,
    ...cameLines.slice(Math.max(0, from - BEFORE), from).map((line) => `  ${line}`),
    ...part(keptLines, '-'),
    ...part(cameLines, '+'),
  ].join('\n');
}
