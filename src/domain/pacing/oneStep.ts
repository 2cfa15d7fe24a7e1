import type { Step } from '../deciding/step';
import type { BlockHeight } from '../measuring/blockHeight';
import { say } from '../saying';
import {
  textOf,
  type CheckScript,
  type CueBook,
  type CueStep,
  type DrillScript,
  type SetUpLine,
} from '../script';
import { scriptOf } from './asking';
import { blocksCue } from './blocksCue';
import { NORMAL_BREATH_SECONDS, type PacedLine } from './line';
import { Timeline } from './timeline';

/** Time to breathe in between two long exhales that follow each other. */
const BREATHE_IN_SECONDS = 3;
/** Time to fetch another bell, or change the plates or blocks; "ready" cuts it short. */
const LOAD_CHANGE_SECONDS = 10;
/** Time to look at what hurts after new or sharp pain (common practice); "ready" cuts it short. */
const LOOK_SECONDS = 30;

/**
 * The lines of one check, one side of it, or one set, in order, ready to be performed: side,
 * set-up (the short one from the second time on), load, fix, time to settle, then the work with
 * its counts spoken at their moments. After new pain, time to look at it comes before all of it.
 * The question that follows is `askOf`. Where `blocks` are known, a drill that has its bell on
 * blocks says which, the first time.
 */
export function planStep(
  book: CueBook,
  step: Extract<Step, { do: 'check' | 'set' }>,
  secondsOf: (text: string) => number,
  blocks: BlockHeight | null = null,
): PacedLine[] {
  const timeline = new Timeline(step.side, secondsOf);
  const side = () => {
    if (step.side !== null) timeline.cue(say(book.lines, `say.side-${step.side}`, {}));
  };
  if (step.do === 'check') {
    const check = scriptOf(book.checks, step.check, 'check');
    side();
    // Both sides are asked, left first: by the right one the set-up is known. A retest comes from
    // other work, so it is set up in full.
    prepare(timeline, check, step.try > 1 || step.side === 'right', []);
    work(timeline, book, check.steps, { reps: check.reps ?? 1, breaths: 1 });
  } else {
    const drill = scriptOf(book.drills, step.drill, 'drill');
    const changes = [
      loadCue(book, drill, step),
      drill.fixes.find(({ fault }) => fault === step.fix)?.cue,
      step.sayGood ? drill.good : undefined,
    ];
    if (step.lookFirst) {
      timeline.cue(say(book.lines, 'say.look-first', {}));
      timeline.stretch('settling', LOOK_SECONDS);
    }
    // Before anybody is in the position that it is about.
    if (!step.again) timeline.cue(drill.caution);
    side();
    if (!step.again) timeline.cue(blocksCue(book, drill, blocks));
    prepare(timeline, drill, step.again, changes);
    const { reps, breaths } = drill.dose;
    work(timeline, book, drill.steps, { reps: reps ?? 1, breaths: breaths ?? 1 });
  }
  return timeline.lines;
}

/** Getting into place: what to do, what changed, and the time for it. */
function prepare(
  timeline: Timeline,
  { setUp, setUpAgain, settleSeconds }: CheckScript | DrillScript,
  known: boolean,
  changes: (SetUpLine | undefined)[],
): void {
  for (const line of [...(known ? setUpAgain : setUp), ...changes]) {
    if (line === undefined) continue;
    timeline.cue(textOf(line));
    timeline.stretch('settling', typeof line === 'string' ? 0 : line.thenSeconds);
  }
  timeline.stretch('settling', settleSeconds);
}

function loadCue(
  book: CueBook,
  drill: DrillScript,
  { load, restored }: Extract<Step, { do: 'set' }>,
): SetUpLine | undefined {
  if (restored) {
    return { text: say(book.lines, 'say.restored', {}), thenSeconds: LOAD_CHANGE_SECONDS };
  }
  if (load === 'as-written') return undefined;
  const easier = load === drill.easier?.load ? drill.easier.cue : undefined;
  const cue = load === 'heavier' ? drill.heavier?.cue : easier;
  if (cue === undefined)
    return load === 'unloaded' ? say(book.lines, 'say.unloaded', {}) : undefined;
  return load === 'shallower' ? cue : { text: cue, thenSeconds: LOAD_CHANGE_SECONDS };
}

interface Dose {
  reps: number;
  /** How often each exhale step is done. */
  breaths: number;
}

function work(timeline: Timeline, book: CueBook, steps: CueStep[], dose: Dose): void {
  for (const step of steps) {
    timeline.cue(step.text);
    switch (step.do) {
      case 'say':
        timeline.stretch('settling', step.thenSeconds ?? 0);
        break;
      case 'exhale':
        for (let breath = 1; breath <= dose.breaths; breath += 1) {
          if (breath > 1) breatheIn(timeline, book);
          timeline.stretch('exhaling', step.seconds, { beats: counted(book, step.seconds) });
        }
        break;
      case 'hold':
        timeline.stretch('holding', step.seconds);
        break;
      case 'reps':
        for (let rep = 1; rep <= dose.reps; rep += 1) oneRep(timeline, book, step, rep, dose.reps);
        break;
      case 'rest':
        timeline.stretch('resting', step.seconds);
        break;
    }
  }
}

const breatheIn = (timeline: Timeline, book: CueBook) =>
  timeline.stretch('resting', BREATHE_IN_SECONDS, { text: say(book.lines, 'say.breathe-in', {}) });

/** Every second of a long exhale, spoken, so that nobody holds a breath. */
const counted = (book: CueBook, seconds: number): PacedLine['beats'] =>
  Array.from({ length: seconds }, (_, index) => beat(book, index + 1, index));

const beat = (book: CueBook, count: number, atSeconds: number): PacedLine['beats'][number] => ({
  atSeconds,
  count,
  text: say(book.lines, `count.${count}`, {}),
});

/** One repetition: down, what is done at the far point, up; its number is spoken as it begins. */
function oneRep(
  timeline: Timeline,
  book: CueBook,
  step: Extract<CueStep, { do: 'reps' }>,
  rep: number,
  reps: number,
): void {
  const { pauseAtKnee: pause, exhaleSeconds, breathsAtBottom = 0 } = step;
  const stay = say(book.lines, 'say.stay', {});
  const stop = () => timeline.stretch('pausingAtKnee', pause?.seconds ?? 0, { rep, text: stay });
  const beats = [beat(book, rep, 0)];
  const move = (seconds: number) => timeline.stretch('repeating', seconds, { rep });
  if (exhaleSeconds !== undefined) {
    timeline.stretch('exhaling', exhaleSeconds, { rep, beats: counted(book, exhaleSeconds) });
  } else if (pause?.on.includes('down') && pause.isBottom !== true) {
    // The knee is about halfway.
    timeline.stretch('repeating', step.downSeconds / 2, { rep, beats });
    stop();
    move(step.downSeconds / 2);
  } else {
    timeline.stretch('repeating', step.downSeconds, { rep, beats });
    if (pause?.on.includes('down')) stop();
  }
  if (breathsAtBottom > 0) {
    const breaths = Array.from({ length: breathsAtBottom }, (_, index) => ({
      atSeconds: index * NORMAL_BREATH_SECONDS,
      count: index + 1,
      text: say(book.lines, 'say.breathe', {}),
    }));
    const seconds = breathsAtBottom * NORMAL_BREATH_SECONDS;
    timeline.stretch('holding', seconds, { rep, beats: breaths });
  }
  if (pause?.on.includes('up') && pause.isBottom !== true) {
    move(step.upSeconds / 2);
    stop();
    move(step.upSeconds / 2);
  } else if (exhaleSeconds !== undefined && rep < reps) {
    // The counts are of the breath, so which rep it is stays unsaid but for the last.
    const key = rep === reps - 1 ? 'say.breathe-in-last' : 'say.breathe-in';
    timeline.stretch('repeating', step.upSeconds, { rep, text: say(book.lines, key, {}) });
  } else {
    move(step.upSeconds);
  }
}
