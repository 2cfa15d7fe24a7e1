import type { CueBook, CueStep, SetUpLine } from '../domain/script';
import type { WarmUp } from '../domain/warmUp/warmUp';

/** One text of the book that may be spoken, and where it stands. */
export interface SpokenText {
  text: string;
  at:
    | { kind: 'check' | 'drill' | 'warm-up'; id: string; path: (string | number)[] }
    | { kind: 'line'; key: string };
}

const ofSteps = (steps: CueStep[]): [(string | number)[], string | undefined][] =>
  steps.map((step, index) => [['steps', index, 'text'], step.text]);

const each = (field: string, lines: SetUpLine[]): [(string | number)[], string][] =>
  lines.map((line, index) =>
    typeof line === 'string' ? [[field, index], line] : [[field, index, 'text'], line.text],
  );

/** Sentences for the screen and the sheet: no voice says them. */
const ONLY_SHOWN = 'shown.';

/** Every cue, question and sentence that may be spoken, with its field in its file. */
export function spokenTexts(book: CueBook): SpokenText[] {
  const checks = Object.values(book.checks).flatMap((check) =>
    listed('check', check.id, [
      ...each('setUp', check.setUp),
      ...each('setUpAgain', check.setUpAgain),
      ...ofSteps(check.steps),
      [['ask'], check.ask],
      [['caution'], check.caution],
    ]),
  );
  const drills = Object.values(book.drills).flatMap((drill) =>
    listed('drill', drill.id, [
      ...each('setUp', drill.setUp),
      ...each('setUpAgain', drill.setUpAgain),
      ...ofSteps(drill.steps),
      [['ask'], drill.ask],
      [['selfCheck'], drill.selfCheck],
      [['good'], drill.good],
      ...drill.fixes.map(({ cue }, index): [(string | number)[], string] => [
        ['fixes', index, 'cue'],
        cue,
      ]),
      [['easier', 'cue'], drill.easier?.cue],
      [['heavier', 'cue'], drill.heavier?.cue],
      [['caution'], drill.caution],
    ]),
  );
  const warmUps = Object.values(book.warmUps).flatMap((warmUp) =>
    listed('warm-up', warmUp.id, demosOf(warmUp)),
  );
  const lines = Object.entries(book.lines)
    .filter(([key]) => !key.startsWith(ONLY_SHOWN))
    .map(([key, text]): SpokenText => ({ text, at: { kind: 'line', key } }));
  return [...checks, ...drills, ...warmUps, ...lines].filter(({ text }) => text !== '');
}

const listed = (
  kind: 'check' | 'drill' | 'warm-up',
  id: string,
  texts: [(string | number)[], string | undefined][],
): SpokenText[] =>
  texts.flatMap(([path, text]) => (text === undefined ? [] : [{ text, at: { kind, id, path } }]));

const demosOf = ({ parts }: WarmUp): [(string | number)[], string][] =>
  parts.flatMap((part, at) => {
    const field = part.arrangement === 'stations' ? 'stations' : 'blocks';
    const shown = part.arrangement === 'stations' ? part.stations : part.blocks;
    return shown.map(({ demo }, index): [(string | number)[], string] => [
      ['parts', at, field, index, 'demo'],
      demo,
    ]);
  });
