import type { Problem } from './problem';
import type { Sources } from './reading';
import type { SpokenText } from './spoken';

/** A problem of a spoken text, at its place in its file. */
export function problemWhere(sources: Sources, at: SpokenText['at'], problem: string): Problem {
  if (at.kind === 'drill') {
    const source = sources.drills.find(({ value }) => value?.id === at.id);
    if (source) return source.problemAt(at.path, problem);
  } else if (at.kind === 'warm-up') {
    const source = sources.warmUps.find(({ value }) => value?.id === at.id);
    if (source) return source.problemAt(at.path, problem);
  } else if (at.kind === 'line') {
    const source = sources.lines.find(({ value }) => value !== null && at.key in value);
    if (source) return source.problemAt([at.key], problem);
  } else {
    for (const { value, problemAt } of sources.checks) {
      const index = value?.checks.findIndex(({ id }) => id === at.id) ?? -1;
      if (index >= 0) return problemAt(['checks', index, ...at.path], problem);
    }
  }
  return { file: '', line: 1, field: '', problem };
}
