import { writeFileSync } from 'node:fs';
import { WAYS, type Way } from '../domain/areas';
import { findingsOf } from '../domain/deciding/deciding';
import { homeworkSession } from '../domain/handover/progress';
import { HOMEWORK } from '../domain/handover/progressDay';
import { leftSentence } from '../domain/handover/progressWords';
import { reportOf } from '../domain/reporting/report';
import type { CueBook, Routine } from '../domain/script';
import type { WarmUp } from '../domain/warmUp/warmUp';
import { callWordOf } from './callWord';
import { homeworkGiven } from './handover';
import { readAthleteFile } from './athleteFile';
import { secondsIn } from './durations';
import type { HeardAudio } from './recogniser';
import { Refused, WrongUsage } from './refused';
import type { TimedEvent } from './rehearsalHall';
import { rehearse, type Rehearsal, type Rehearsed } from './rehearsing';
import { readReplies, type Replies } from './replies';
import {
  answer,
  bookOf,
  mustBeHeard,
  mustBeSpoken,
  onlyOne,
  parse,
  routineOf,
  type Parsed,
  type Verb,
} from './verb';
import { plannedWarmUp, rehearseWarmUp } from './warmUps';

export const rehearseVerb: Verb = {
  does: 'runs a whole session on a virtual clock and prints its timeline',
  usage:
    'Usage: sayso rehearse ROUTINE --replies FILE [--sound OUT.wav] [--session OUT.json]\n' +
    '       [--athlete FILE.json] [--way hands-on|alone|group] [--call-word WORD]\n' +
    '       [--language en]\n' +
    '       sayso rehearse homework --handover FILE.json [--earlier SESSION.json ...] [--at MOMENT]\n' +
    '       --replies FILE [--sound OUT.wav] [--session OUT.json] [--call-word WORD]\n\n' +
    'Homework is what a coach handed over, after the earlier sessions of it that --session wrote;\n' +
    '--at is when, as 2031-03-01T09:00:00+01:00, else a day after the last of them.\n' +
    'A warm-up for a group plays by itself, and takes what its leader says: "@60 hold".\n\n' +
    'Replies, one a line: text is heard at the next prompt that wants an answer; "@12.5 text" at\n' +
    'that second; "@audio FILE.wav" through the recogniser; "#" a comment; an empty line silence.\n' +
    '--athlete: {"passLineDegrees": 150, "stature": "175 cm", "ageYears": 30, ...}: settings that\n' +
    'differ from the usual, and what is known of the athlete, the bell and the blocks at hand;\n' +
    '"words" is how much is said: learning, normal or tones;\n' +
    '"missingEquipment" names what the gym lacks, "allowedAlone" the drills allowed alone.',
  async run(args) {
    const { values, positionals, lists } = parse(
      args,
      [
        ...['replies', 'sound', 'session', 'athlete', 'way', 'call-word', 'minutes'],
        ...['handover', 'at'],
      ],
      ['earlier'],
    );
    const id = onlyOne(positionals);
    if (id === HOMEWORK) return ofHomework(values, lists.earlier);
    if (values.handover !== undefined || values.at !== undefined || lists.earlier !== undefined)
      throw new WrongUsage('--handover, --earlier and --at go with "rehearse homework" alone.');
    const book = bookOf(values.language);
    const warmUp = id === undefined ? undefined : book.warmUps[id];
    if (warmUp !== undefined) return ofGroup(book, warmUp, values);
    if (values.minutes !== undefined)
      throw new WrongUsage(
        '--minutes goes with a warm-up alone: what a session takes, nobody knows.',
      );
    const routine = routineOf(book, id);
    if (values.replies === undefined) throw new WrongUsage('Name the replies: --replies FILE.');
    const way = wayOf(routine, values.way);
    const given = readAthleteFile(values.athlete, book);
    return play(book, { routine: routine.id, way, ...given }, values);
  },
};

/** What a coach handed over, by the athlete alone: its language and settings are its own. */
function ofHomework(
  { athlete, way, minutes, language, handover, at, ...values }: Parsed['values'],
  earlier: readonly string[] = [],
): Promise<number> {
  const tooMuch = Object.entries({ athlete, way, minutes, language }).find(([, value]) => value);
  if (tooMuch)
    throw new WrongUsage(`Homework has all of that from what was handed over: no --${tooMuch[0]}.`);
  const { book, day, ...when } = homeworkGiven({ handover, earlier, at });
  if (day.tasks.length === 0)
    throw new Refused(day.left.map((each) => leftSentence(book, each)).join('\n'));
  return play(book, { ...homeworkSession(day), ...when }, values);
}

/** Runs it, prints its timeline and writes what was asked for. */
async function play(
  book: CueBook,
  what: Omit<Rehearsal, 'book' | 'secondsOf' | 'replies'>,
  { replies: path, sound, session, 'call-word': word }: Parsed['values'],
): Promise<number> {
  if (path === undefined) throw new WrongUsage('Name the replies: --replies FILE.');
  const replies = readReplies(path);
  if (sound !== undefined) mustBeSpoken(book);
  const callWord = callWordOf(book, word);
  const sounds = await preparedSounds(book, replies, callWord);
  const rehearsed = rehearse({
    book,
    ...what,
    callWord,
    secondsOf: secondsIn(book.language),
    replies,
    hearAudio: (file, prompt) => sounds.get(file)?.(prompt) ?? { heard: null, seconds: 0 },
  });
  for (const event of rehearsed.timeline.flatMap(line)) answer(event);
  if (session !== undefined) {
    write(session, `${JSON.stringify(sessionOf(book, rehearsed), null, 2)}\n`);
  }
  if (sound !== undefined) {
    const { rehearsalToMix, soundFileOf } = await import('./sounding');
    write(sound, await soundFileOf(rehearsalToMix(rehearsed)));
  }
  return 0;
}

/** A warm-up leaves no record and knows nobody, so it takes no --session and no --athlete. */
async function ofGroup(
  book: CueBook,
  warmUp: WarmUp,
  { sound, session, athlete, way, ...values }: Parsed['values'],
): Promise<number> {
  const tooMuch = Object.entries({ session, athlete }).find(([, value]) => value !== undefined);
  if (tooMuch) throw new WrongUsage(`A warm-up is of nobody and kept nowhere: no --${tooMuch[0]}.`);
  if (way !== undefined && way !== 'group')
    throw new Refused(`The warm-up ${warmUp.id} is not run "${way}". It is run: group.`);
  if (sound !== undefined) mustBeSpoken(book);
  const callWord = callWordOf(book, values['call-word']);
  const replies =
    values.replies === undefined ? { inTurn: [], timed: [] } : readReplies(values.replies);
  const sounds = await preparedSounds(book, replies, callWord);
  // What cannot be promised is refused here, as by render and plan.
  plannedWarmUp(book, warmUp, values.minutes);
  const { timeline, said, reason, tookSeconds } = rehearseWarmUp(
    book,
    warmUp,
    {
      ...{ secondsOf: secondsIn(book.language), replies },
      hearAudio: (path, prompt) => sounds.get(path)?.(prompt) ?? { heard: null, seconds: 0 },
    },
    {
      callWord,
      endSeconds: values.minutes === undefined ? undefined : Number(values.minutes) * 60,
    },
  );
  for (const event of timeline.flatMap(line)) answer(event);
  answer({
    t: Math.round(tookSeconds * 1000) / 1000,
    type: 'end',
    reason,
    areas: [],
    liftsReady: [],
    findings: [],
  });
  if (sound !== undefined) {
    const { rehearsalToMix, soundFileOf } = await import('./sounding');
    write(sound, await soundFileOf(rehearsalToMix({ said, timeline })));
  }
  return 0;
}

async function preparedSounds(book: CueBook, { inTurn, timed }: Replies, callWord?: string) {
  const sounds = new Map<string, (prompt: string) => HeardAudio>();
  const files = new Set([...inTurn, ...timed].flatMap(({ audio }) => audio ?? []));
  if (files.size === 0) return sounds;
  mustBeHeard(book);
  const { FileEar } = await import('./recogniser');
  const ear = new FileEar(book, callWord);
  for (const file of files) sounds.set(file, await ear.prepare(file));
  return sounds;
}

function wayOf({ id, ways }: Routine, way = 'hands-on'): Way {
  const known = WAYS.find((each) => each === way);
  if (known === undefined) throw new WrongUsage(`--way is one of ${WAYS.join(', ')}.`);
  if (!ways.includes(known)) {
    throw new Refused(`The routine ${id} is not run "${way}". It is run: ${ways.join(', ')}.`);
  }
  return known;
}

/** Phases are for the screen alone; everything else is the timeline. */
const line = ({ atSeconds, ...event }: TimedEvent): object[] =>
  event.type === 'phase' ? [] : [{ t: Math.round(atSeconds * 1000) / 1000, ...event }];

/** Everything that a readiness sheet needs, and the whole log behind it. */
function sessionOf(book: CueBook, { entries }: Rehearsed): object {
  const started = entries.find((entry) => entry.type === 'started');
  return {
    format: 'sayso-session-1',
    session: 'rehearsal',
    routine: started?.routine,
    language: started?.language,
    way: started?.way,
    startedAt: started?.startedAt,
    athlete: started?.athlete,
    angleTool: started?.angleTool,
    blockHeightMillimetres: started?.blockHeightMillimetres,
    settings: started?.settings,
    ended: entries.find((entry) => entry.type === 'ended')?.reason ?? null,
    ...reportOf(book, entries),
    // As they were said, with their words and who said them.
    findings: findingsOf(entries),
    entries,
  };
}

function write(path: string, content: string | Uint8Array): void {
  try {
    writeFileSync(path, content);
  } catch (problem) {
    throw new Refused(`${path}: cannot be written (${(problem as Error).message}).`);
  }
}
