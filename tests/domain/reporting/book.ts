import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { CueBook, DrillScript } from '../../../src/domain/script';
import { Telling } from '../deciding/logging';
import { book as bare } from '../deciding/book';

const linesOf = (name: string): CueBook['lines'] =>
  Object.fromEntries(
    Object.entries(
      parse(
        readFileSync(new URL(`../../../scripts-cues/en/${name}`, import.meta.url), 'utf8'),
      ) as Record<string, string | { text: string }>,
    ).map(([key, line]) => [key, typeof line === 'string' ? line : line.text]),
  );

const GUIDED: Record<string, Partial<DrillScript>> = {
  'bell-hinge': {
    loadGuidance: 'The handle stands at knee height.',
    caution: 'Put the bell down where anything hurts.',
    instead: ['a dumbbell on end'],
    dose: { sets: 3, reps: 6 },
  },
  'supported-hang': { dose: { sets: 3, breaths: 3 } },
  'standing-press': { dose: { sets: 1, reps: 5 } },
};

/** The small book of the rules, with the shipped sentences of the report. */
export const book: CueBook = {
  ...bare,
  drills: Object.fromEntries(
    Object.entries(bare.drills).map(([id, drill]) => [id, { ...drill, ...GUIDED[id] }]),
  ),
  lines: { ...bare.lines, ...linesOf('says.yaml'), ...linesOf('outcome.yaml') },
};

export const begin = (
  routine: string,
  way: 'hands-on' | 'alone' = 'hands-on',
  settings: ConstructorParameters<typeof Telling>[2] = {},
): Telling => new Telling(routine, way, settings, book);
