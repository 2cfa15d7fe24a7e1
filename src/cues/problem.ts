import type { z } from 'zod';

/** One thing wrong in the cue scripts, where it is, and what is allowed there. */
export interface Problem {
  /** Path of the file, as reached from the folder that was handed in. */
  file: string;
  /** From 1. */
  line: number;
  /** Dotted path inside the file, such as `steps.1.seconds`; empty for the whole file. */
  field: string;
  problem: string;
}

export const printed = ({ file, line, field, problem }: Problem): string =>
  `${file}:${line} ${field === '' ? '' : `${field}: `}${problem}`;

/** The cue scripts cannot be used; `problems` says why, one for each place to mend. */
export class CueError extends Error {
  override readonly name = 'CueError';
  readonly problems: Problem[];

  constructor(problems: Problem[]) {
    super(`The cue scripts cannot be used:\n${problems.map(printed).join('\n')}`);
    this.problems = problems;
  }
}

type Issue = z.core.$ZodIssue;

/** A schema's complaint in the words of somebody who edits cue scripts. */
export function wordsOf(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined && issue.message.endsWith('undefined')
        ? `is missing; it must be ${article(issue.expected)}`
        : `must be ${article(issue.expected)}`;
    case 'invalid_value':
      return `must be ${issue.values.length > 1 ? 'one of ' : ''}${issue.values.join(', ')}`;
    case 'invalid_key':
      return issue.issues[0]?.message ?? issue.message;
    default:
      return issue.message;
  }
}

const article = (expected: string): string => {
  if (expected === 'string') return 'text';
  if (expected === 'array') return 'a list';
  if (expected === 'object' || expected === 'record') return 'a group of fields';
  if (expected === 'boolean') return 'true or false';
  return `a ${expected === 'int' ? 'whole number' : expected}`;
};
