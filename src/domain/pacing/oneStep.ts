import type { Step } from '../deciding/step';
import { numberCounting } from '../hearing/numbers';
import type { BlockHeight } from '../measuring/blockHeight';
import { say } from '../saying';
import type { CueBook, CueStep, DrillScript, SetUpLine } from '../script';
import { scriptOf } from './asking';
import { blocksCue } from './blocksCue';
import { NORMAL_BREATH_SECONDS, type PacedLine } from './line';
import { setUp, type Telling } from './settingUp';
import { Timeline } from './timeline';

/** Time to breathe in between two long exhales that follow each other. */
const BREATHE_IN_SECONDS = 3;
/** Time to fetch another bell, or change the plates or blocks; "ready" cuts it short. */
const LOAD_CHANGE_SECONDS = 10;
/** Time to look at what hurts after new or sharp pain (common practice); "ready" cuts it short. */
const LOOK_SECONDS = 30;
/** Between two sets of homework (common practice, no source); "ready" cuts it short. */
export const REST_SECONDS = { unloaded: 30, loaded: 60 } as const;
/** Tones in the last seconds before a set, where nothing is said of it. */
const COUNTDOWN = [3, 2, 1];

/** What a plan depends on besides its step. */
export interface Asked extends Telling {
  /** The drill was done last with this load. */
  isLoadSet: boolean;
  /** What the bell stands on, where it is known. */
  blocks: BlockHeight | null;
}
const FIRST_TIME: Asked = { words: 'normal', known: 'new', isLoadSet: false, blocks: null };

/**
 * The lines of one check, one side of it, or one set, in order, ready to be performed: caution
 * (the first time), side, what is not known of the set-up, what changed (load, fix), time to
 * settle, then the work with its counts at their moments. After new pain, time to look at it comes
 * before all of it. The question that follows is `askOf`. Where `blocks` are known, a drill that
 * has its bell on blocks says which, the first time.
 */
export function planStep(
  book: CueBook,
  step: Extract<Step, { do: 'check' | 'set' }>,
  secondsOf: (text: string) => number,
  asked: Partial<Asked> = {},
): PacedLine[] {
  const timeline = new Timeline(step.side, secondsOf);
  const telling = { ...FIRST_TIME, ...asked };
  const side = () => {
    if (step.side !== null) timeline.cue(say(book.lines, `say.side-${step.side}`, {}));
  };
  if (step.do === 'check') {
    const check = scriptOf(book.checks, step.check, 'check');
    // Said as it is set up: "ask first". Where nothing is said of that, its caution is.
    if (telling.words === 'tones' && telling.known === 'new') timeline.cue(check.caution);
    side();
    setUp(timeline, check, [], telling);
    if (telling.words === 'tones' && isBreath(check.steps[0])) breatheIn(timeline, book);
    work(timeline, book, check.steps, { reps: check.reps ?? 1, breaths: 1 });
    return timeline.lines;
  }
  const drill = scriptOf(book.drills, step.drill, 'drill');
  const isFirst = telling.known === 'new';
  const isSaid = !telling.isLoadSet || telling.words === 'learning';
  const changes = [
    isSaid || step.restored ? loadCue(book, drill, step) : undefined,
    drill.fixes.find(({ fault }) => fault === step.fix)?.cue,
    step.sayGood ? drill.good : undefined,
  ];
  if (step.lookFirst) {
    timeline.cue(say(book.lines, 'say.look-first', {}));
    timeline.stretch('settling', LOOK_SECONDS);
  }
  // A rest comes before each later set, once for both sides.
  if (step.homework && step.set > 1 && step.side !== 'right') {
    const kind = drill.loaded ? 'loaded' : 'unloaded';
    timeline.stretch('resting', REST_SECONDS[kind], {
      text: say(book.lines, `say.rest-${kind}`, {}),
    });
  }
  if (step.homework && isFirst && step.set === 1) {
    timeline.cue(doseCue(book, drill));
    if (drill.loaded) timeline.cue(say(book.lines, 'say.handed-load', {}));
    timeline.cue(drill.good);
  }
  // Before anybody is in the position that it is about.
  if (isFirst) timeline.cue(drill.caution);
  side();
  if (isFirst) timeline.cue(blocksCue(book, drill, telling.blocks));
  setUp(timeline, drill, changes, telling);
  const steps = telling.words === 'tones' ? ledIn(timeline, book, drill.steps) : drill.steps;
  const { reps, breaths } = drill.dose;
  work(timeline, book, steps, { reps: reps ?? 1, breaths: breaths ?? 1 });
  return timeline.lines;
}

/** "Three sets of six." */
function doseCue(
  { lines, vocabulary: { numbers } }: CueBook,
  { dose, sided }: DrillScript,
): string {
  const { sets, reps, breaths } = dose;
  const count = (number: number) => numberCounting(numbers, number);
  const key = reps === undefined && breaths !== undefined ? 'breaths' : 'reps';
  const each = sided ? '-each' : '';
  const number = reps ?? breaths ?? 1;
  const counted =
    sets === 1 ? say(lines, 'say.one-set', {}) : say(lines, 'say.sets', { number: count(sets) });
  const said = say(lines, `say.dose-${key}${each}`, { sets: counted, number: count(number) });
  return said.charAt(0).toUpperCase() + said.slice(1);
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

const isBreath = (step: CueStep | undefined): boolean =>
  step?.do === 'exhale' || (step?.do === 'reps' && step.exhaleSeconds !== undefined);

/**
 * What to take and to get into, in tones: its time without its words, ended by three tones, and by
 * "Breathe in" where a counted breath follows. What is left is the work and what comes after, which
 * is spoken: nobody is asked about a set with the load still in the hands.
 */
function ledIn(timeline: Timeline, book: CueBook, steps: CueStep[]): CueStep[] {
  const begins = steps.findIndex((step) => step.do !== 'say');
  const first = steps.find((step) => step.do !== 'say');
  if (first === undefined) return steps;
  const toTakeSeconds = steps
    .slice(0, begins + 1)
    .reduce(
      (total, step) =>
        total + timeline.cueSeconds(step.text) + (step.do === 'say' ? (step.thenSeconds ?? 0) : 0),
      0,
    );
  const breathSeconds = isBreath(first) ? BREATHE_IN_SECONDS : 0;
  const seconds = Math.max(toTakeSeconds - breathSeconds, COUNTDOWN.length);
  const beats = COUNTDOWN.map((count) => ({ atSeconds: seconds - count, count, text: null }));
  timeline.stretch('settling', seconds, { beats });
  if (isBreath(first)) breatheIn(timeline, book);
  return [{ ...first, text: undefined }, ...steps.slice(begins + 1)];
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
