import type { Step } from '../../../src/domain/deciding/step';
import type { PacedLine } from '../../../src/domain/pacing/line';

/** Half a second a word: plans in tests do not hang on the measured table. */
export const evenly = (text: string): number =>
  text.split(' ').filter((word) => word !== '').length * 0.5;

export type CheckStep = Extract<Step, { do: 'check' }>;
export type SetStep = Extract<Step, { do: 'set' }>;

export const checkStep = (check: string, more: Partial<CheckStep> = {}): CheckStep => ({
  do: 'check',
  prompt: `check/${check}`,
  area: 'overhead',
  check,
  side: null,
  try: 1,
  retest: false,
  ...more,
});

export const setStep = (drill: string, more: Partial<SetStep> = {}): SetStep => ({
  do: 'set',
  prompt: `set/${drill}`,
  area: 'hinge',
  drill,
  side: null,
  rung: 1,
  set: 1,
  of: 2,
  load: 'as-written',
  fix: null,
  sayGood: false,
  lookFirst: false,
  restored: false,
  ...more,
});

/** A plan as somebody would read it aloud: when, what goes on, for how long, and what is said. */
export const readable = (lines: PacedLine[]): string[] =>
  lines.map(({ atSeconds, phase, seconds, text, beats, rep }) => {
    const counts = beats.map((beat) => `${beat.atSeconds}:${beat.text ?? beat.count}`).join(' ');
    return [
      `${atSeconds.toFixed(1)} ${phase} ${seconds}`,
      ...(rep === null ? [] : [`rep ${rep}`]),
      ...(text === null ? [] : [`"${text}"`]),
      ...(counts === '' ? [] : [`[${counts}]`]),
    ].join(' ');
  });
