import type { Area, AreaOutcome, Side, Way } from '../domain/areas';
import type { AngleTool, Finding, Load, PainKind, RedFlag, Result } from '../domain/findings';
import type { Words } from '../domain/log';
import { HOMEWORK } from '../domain/handover/progressDay';
import type { CueBook, PromptId, RoutineId } from '../domain/script';
import type { Phase } from '../ports';
import type { OfflineState } from './seat';
import type { Told } from './view';

export const AREA_WORDS: Record<Area, string> = {
  overhead: 'Overhead',
  squat: 'Squat',
  hinge: 'Hinge',
};

export const RESULT_WORDS: Record<Result, string> = {
  held: 'Held',
  lost: 'Lost',
  short: 'Short',
  pain: 'Pain',
  'not-tested': 'Not tested',
};

/** How much is said, by name. */
export const WORDS_NAMES: Record<Words, string> = {
  learning: 'Learning',
  normal: 'Normal',
  tones: 'Tones only',
};

export const SIDE_WORDS: Record<Side | 'both', string> = {
  left: 'Left',
  right: 'Right',
  both: 'Both',
};

export const RED_FLAG_WORDS: Record<RedFlag, string> = {
  'chest-pain': 'Chest pain',
  'faint-dizzy': 'Faint or dizzy',
  breathless: 'Breathless',
  'numb-tingling': 'Numb or tingling',
  'gave-way': 'It gave way',
  'back-numb': 'Back and numb',
};

export const PAIN_KIND_WORDS: Record<PainKind, string> = {
  new: 'New',
  sharp: 'Sharp',
  known: 'Known',
};

export const LOAD_WORDS: Record<Load, string> = {
  'as-written': 'as written',
  lighter: 'lighter',
  heavier: 'heavier',
  raised: 'raised',
  shallower: 'less depth',
  unloaded: 'unloaded',
};

export const PHASE_WORDS: Record<Phase, string> = {
  cueing: 'Listen',
  settling: 'Get into place',
  exhaling: 'Breathe out',
  holding: 'Hold',
  repeating: 'Move',
  pausingAtKnee: 'Pause at the knee',
  resting: 'Rest',
  asking: 'Question',
  listening: 'Say it now',
  confirming: 'Is that right?',
  waiting: 'Waiting for you',
  paused: 'Paused',
  halted: 'Stopped',
  ended: 'Over',
};

/** Who leads, by name and in a line. */
export const WAY_WORDS: Record<Way, string> = {
  'hands-on': 'Hands on: you say what you see',
  alone: 'Alone: they say what they feel',
  group: 'Group: one speaks for everybody',
};

/** What whoever begins says by it, and how the button begins. */
export const AGREED_WORDS: Record<Way, { line: string; they: string }> = {
  'hands-on': {
    line: 'You asked about pain, injury, surgery, pregnancy, heart and blood pressure; they agree to hands on.',
    they: 'They agree',
  },
  alone: {
    line: 'You have read the cautions, and nothing in them keeps you from beginning.',
    they: 'I agree',
  },
  group: {
    line: 'You asked everybody about pain, injury, surgery, pregnancy, heart and blood pressure; they agree.',
    they: 'They agree',
  },
};

export const TOOL_WORDS: Record<AngleTool, string> = {
  eye: 'By eye',
  inclinometer: 'Inclinometer',
  goniometer: 'Goniometer',
  'tilt-sensor': 'Tilt sensor',
};

export const OUTCOME_WORDS: Record<AreaOutcome, string> = {
  ready: 'Ready to be taught',
  working: 'Working',
  referred: 'Referred',
  unfinished: 'Unfinished',
};

export const OFFLINE_WORDS: Record<
  Exclude<OfflineState['state'], 'unknown' | 'fetching'>,
  string
> = {
  ready: 'Works without network from now on.',
  full: 'No room on this device to keep Sayso. It works now, and needs the network next time.',
  incomplete: 'Not all of Sayso has arrived. Until it has, it needs the network.',
  never: 'Here Sayso needs the network each time it is opened.',
};

/** What is still being fetched; in one line on a phone, so that nothing below it moves. */
export const FETCHED_WORDS: Record<OfflineState['what'], string> = {
  page: 'Not yet without network: the page.',
  recogniser: 'Not yet without network: the recogniser.',
  voice: 'Not yet without network: the voice.',
};

export const NEW_VERSION_WORDS: Record<NonNullable<OfflineState['newVersion']>, string> = {
  waiting: 'A new version of Sayso is here.',
  'other-pages': 'A new version of Sayso is here. Close its other pages first.',
};

const QUESTION_TITLES: Record<string, string> = {
  'pain/how-much': 'How much pain?',
  'pain/kind': 'What kind of pain?',
  confirm: 'Yes or no?',
};

/** The book's spoken name without its article: "the bell hinge" -> "bell hinge". */
const bare = (name: string): string => name.replace(/^(the|an|a) /i, '');

/** The same with a capital, as a title: "Bell hinge". */
export const titled = (name: string): string =>
  bare(name).charAt(0).toUpperCase() + bare(name).slice(1);

/** The check or drill that a prompt asks about, or null. */
export function subjectOf(book: CueBook, prompt: PromptId) {
  const [kind, id = ''] = prompt.split('/');
  if (kind === 'check') return book.checks[id] ?? null;
  if (kind === 'set') return book.drills[id] ?? null;
  return null;
}

/** What a prompt is about, as a title. */
export const titleOf = (book: CueBook, prompt: PromptId): string => {
  const subject = subjectOf(book, prompt);
  return subject === null ? (QUESTION_TITLES[prompt] ?? prompt) : titled(subject.name);
};

/** How many repetitions a set or check has, or null where it counts breaths or none. */
export function repsOf(book: CueBook, prompt: PromptId): number | null {
  const subject = subjectOf(book, prompt);
  if (subject === null) return null;
  return ('dose' in subject ? subject.dose.reps : subject.reps) ?? null;
}

/** The name of a check or drill by its id, as it stands inside a sentence. */
export const nameOf = (book: CueBook, id: string): string =>
  bare(book.checks[id]?.name ?? book.drills[id]?.name ?? id);

/** A routine by name; homework is in no book. */
export const routineName = (book: CueBook, id: RoutineId): string =>
  book.routines[id]?.name ?? (id === HOMEWORK ? 'Homework' : id);

/** Where in the session a step is: "Hinge · rung 2 of 4 · set 1 of 2". */
export function placeOf(book: CueBook, step: Told<'step'>): string {
  const area = subjectOf(book, step.prompt)?.area ?? null;
  const rungs = area === null ? undefined : book.ladders[area]?.rungs.length;
  const parts: string[] = [];
  if (area !== null) parts.push(AREA_WORDS[area]);
  if (step.prompt.startsWith('check/')) parts.push('check');
  if (step.rung !== null) parts.push(`rung ${step.rung}${rungs ? ` of ${rungs}` : ''}`);
  if (step.set !== null) {
    const word = step.prompt.startsWith('check/') ? 'try' : 'set';
    parts.push(`${word} ${step.set}${step.of === null ? '' : ` of ${step.of}`}`);
  }
  return parts.join(' · ');
}

/** A finding's faults as they are read back: "knees forward, bar away". */
export const faultsOf = (book: CueBook, finding: Finding): string =>
  finding.faults.map((id) => book.faults[id]?.readback ?? id).join(', ');

/** "Bell hinge, left (Hinge · rung 2 of 4 · set 1 of 2)". */
export function openWords(book: CueBook, open: Told<'step'>): string {
  const side = open.side === null ? '' : `, ${SIDE_WORDS[open.side].toLowerCase()}`;
  const place = placeOf(book, open);
  return `${titleOf(book, open.prompt)}${side}${place === '' ? '' : ` (${place})`}`;
}
