import type { Words } from '../log';
import { textOf, type CheckScript, type DrillScript, type SetUpLine } from '../script';
import type { Known } from './known';
import type { Timeline } from './timeline';

/** How much of a set-up is said. */
export interface Telling {
  words: Words;
  known: Known;
}

/**
 * Getting into place: what is not known yet, what changed, and the time for it. "Ready" cuts each
 * wait short.
 */
export function setUp(
  timeline: Timeline,
  script: CheckScript | DrillScript,
  changes: (SetUpLine | undefined)[],
  telling: Telling,
): void {
  const { settleSeconds } = script;
  const said = linesSaid(script, telling);
  // Who comes from other work needs as long to get into place as the first time.
  const needed = telling.known === 'on' ? script.setUpAgain : script.setUp;
  const lackingSeconds = Math.max(0, sum(needed.map(toDoSeconds)) - sum(said.map(toDoSeconds)));
  said.forEach((line, index) => put(timeline, line, index === 0 ? lackingSeconds : 0));
  const saidUntilSeconds = timeline.endSeconds;
  for (const line of changes) if (line !== undefined) put(timeline, line, 0);
  if (said.length > 0) return timeline.stretch('settling', settleSeconds);
  // The pause between two sets stays as long as it was with words: it is a rest, too. One side
  // rests while the other works.
  const isBetweenSets = isDrill(script) && telling.known === 'on' && !script.sided;
  const wordsSeconds = sum(needed.map((line) => timeline.cueSeconds(textOf(line))));
  const changeSeconds = timeline.endSeconds - saidUntilSeconds;
  const restSeconds = lackingSeconds + (isBetweenSets ? wordsSeconds : 0) - changeSeconds;
  timeline.stretch('settling', settleSeconds + Math.max(0, restSeconds));
}

/**
 * Of a drill that goes on nothing, since nothing of its place changed. A check is a test: what is
 * said of it each time is short, but the same.
 */
function linesSaid(script: CheckScript | DrillScript, { words, known }: Telling): SetUpLine[] {
  if (words === 'tones') return [];
  if (known === 'new') return script.setUp;
  if (words === 'learning') {
    return known === 'back' && !isDrill(script) ? script.setUp : script.setUpAgain;
  }
  return known === 'on' && isDrill(script) ? [] : script.setUpAgain;
}

const isDrill = (script: CheckScript | DrillScript): script is DrillScript => 'dose' in script;

function put(timeline: Timeline, line: SetUpLine, moreSeconds: number): void {
  timeline.cue(textOf(line));
  timeline.stretch('settling', toDoSeconds(line) + moreSeconds);
}

const toDoSeconds = (line: SetUpLine): number => (typeof line === 'string' ? 0 : line.thenSeconds);

const sum = (numbers: number[]): number => numbers.reduce((total, each) => total + each, 0);
