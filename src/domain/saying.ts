import type { Lines } from './script';

/**
 * A sentence of Sayso itself with its {placeholders} filled in: `say(lines, 'say.time-left',
 * { minutes: 4 })`. Throws where the key is unknown or a placeholder got no value, since a
 * sentence with a hole in it must never be spoken.
 */
export function say(lines: Lines, key: string, values: Record<string, string | number>): string {
  const line = Object.hasOwn(lines, key) ? lines[key] : undefined;
  if (line === undefined) {
    throw new Error(
      `No sentence "${key}" in the cue scripts: add it to says.yaml, lines.yaml, outcome.yaml, group.yaml or homework.yaml.`,
    );
  }
  return line.replace(/\{([\w-]+)\}/g, (_, name: string) => {
    const value = Object.hasOwn(values, name) ? values[name] : undefined;
    if (value === undefined) {
      throw new Error(`The sentence "${key}" needs a value for {${name}}: ${line}`);
    }
    return String(value);
  });
}

/** The text as it begins a sentence: its first letter large, whatever mark is before it. */
export const sentenceOf = (text: string): string =>
  text.replace(/\p{L}/u, (first) => first.toUpperCase());
