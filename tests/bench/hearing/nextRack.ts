import { wordsOf } from '../../../src/cues/grammarWords';
import { grammarOf } from '../../../src/domain/hearing/building';
import type { Grammar } from '../../../src/domain/hearing/grammar';
import type { CueBook } from '../../../src/domain/script';
import { FRAME, type Detector } from '../../../src/ear/detecting';
import { lexiconFor, type Lexicon } from '../../../src/ear/lexicon';
import { Listening } from '../../../src/ear/listening';
import { nodeDetector, readerOf } from '../../../src/ear/node';
import { createRecogniser, type Recogniser } from '../../../src/ear/recognising';
import { URGENT } from '../../../src/ear/urgent';
import { randomFrom } from '../../ear/noises';
import { padded } from '../../ear/speech';
import { HALVES, spokenBy, type Half, type Speaker } from '../../sounds/speakers';
import { MAKERS, meanPower, spokenPower } from '../../sounds/surroundings';
import type { Apart, Stage } from './apart';
import { remembering } from './coachHearing';
import { outcomeOf } from './hearing';
import type { Outcome } from './jobs';
import { table } from './printing';
import { kindOf, sampleReplies, understood, type Wanted } from './replies';

/** Below the coach: the next rack, and the coach's own voice from three metres instead of one. */
const NEXT_RACK_DECIBELS = -10;
const WALKED_DECIBELS = -9.5;
/** A coach raises and lowers the voice by so much; from memory. */
const VARIES_DECIBELS = 3;
/** Noise of the room, below the coach at one metre. */
const ROOM_DECIBELS = 20;
const SCENES_A_VOICE = 4;

/** Who says the reply that is judged, and how long the coach has been where it comes from. */
const ROWS = [
  'next rack alone',
  'next rack during a reply',
  'coach, voice raised or lowered',
  'coach from 3 m, first reply',
  'coach from 3 m, second',
  'coach from 3 m, third',
] as const;
type Row = (typeof ROWS)[number];

/** How the replies of one row came out, by an ear that knows no level and by one that does. */
export interface RackFigure {
  figure: 'next rack';
  half: Half;
  row: Row;
  ear: 'without level' | 'with level';
  n: number;
  outcomes: Record<Outcome, number>;
}

/** A reply at its prompt; a foreign one should come to nothing. */
interface Piece {
  sound: Float32Array;
  wanted: Wanted;
  isForeign: boolean;
}

type Random = () => number;
const drawn = <T>(from: T[], random: Random) => from[Math.floor(random() * from.length)] as T;

/**
 * `--part rack`: one ear hears three of a coach's replies from one metre, then the next rack's by
 * themselves and during the coach's, then the coach from three metres, who says yes where asked.
 * Every reply is heard by an ear that heard nothing before it too.
 */
export async function nextRackPart({ book, speakers, seed, share }: Stage): Promise<Apart> {
  const recogniser = createRecogniser(remembering(await readerOf('strong')));
  const detector = await nodeDetector();
  const lexicon = lexiconFor(wordsOf(book));
  const { reply } = understood(book, 'confirm', 'yes');
  if (reply === null) throw new Error('"Yes" is no reply.');
  const yes: Wanted = { prompt: 'confirm', text: 'yes', reply };
  const scenes = Math.max(1, Math.round(SCENES_A_VOICE * share));
  const figures: RackFigure[] = [];
  const count = (half: Half, row: Row, ear: RackFigure['ear'], outcome: Outcome) => {
    const known = figures.find(
      (each) => each.half === half && each.row === row && each.ear === ear,
    );
    const outcomes = { accepted: 0, asked: 0, 'asked-wrong': 0, wrong: 0, missed: 0 };
    const figure = known ?? { figure: 'next rack' as const, half, row, ear, n: 0, outcomes };
    if (known === undefined) figures.push(figure);
    figure.n += 1;
    figure.outcomes[outcome] += 1;
  };
  for (const half of HALVES) {
    const random = randomFrom(seed);
    const among = speakers.filter((speaker) => speaker.half === half);
    if (among.length < 2) continue;
    const grades = sampleReplies(book, 600, random).filter(
      ({ prompt, reply }) =>
        /^(check|set)\//.test(prompt) && ['result', 'fault', 'angle'].includes(kindOf(reply)),
    );
    for (const coach of among.flatMap((each) => Array.from({ length: scenes }, () => each))) {
      const others = among.filter((speaker) => speaker !== coach);
      const said = await sayingsOf({ half, coach, others, grades }, random);
      const ear = earFor(book, recogniser, lexicon);
      const hear = async (piece: Piece) => ear(piece, await speechIn(piece.sound, detector));
      const judge = async (row: Row, piece: Piece) => {
        const speech = await speechIn(piece.sound, detector);
        const fresh = earFor(book, recogniser, lexicon);
        count(half, row, 'without level', await fresh(piece, speech));
        const outcome = await ear(piece, speech);
        count(half, row, 'with level', outcome);
        return outcome;
      };
      for (let reply = 0; reply < 3; reply += 1) await hear(await said.near());
      for (let part = 0; part < 2; part += 1) {
        await judge('next rack alone', await said.foreign());
        await judge('next rack during a reply', await said.both());
        await judge('coach, voice raised or lowered', await said.near());
      }
      await judge('next rack alone', await said.foreign());
      for (const row of ROWS.slice(3)) {
        const outcome = await judge(row, await said.far());
        if (outcome === 'asked') await hear(await said.far(yes));
      }
    }
  }
  return { figures, goals: [], shown: shownOf(figures) };
}

/** What is said in one scene, each time another reply, in the noise of the room. */
async function sayingsOf(
  {
    half,
    coach,
    others,
    grades,
  }: { half: Half; coach: Speaker; others: Speaker[]; grades: Wanted[] },
  random: Random,
) {
  const dryOf = (speaker: Speaker, { text }: Wanted) => spokenBy({ speaker, text, rate: 1.1 });
  const grade = () => drawn(grades, random);
  const nearPower = spokenPower(await dryOf(coach, grade()));
  const inRoom = (dry: Float32Array, decibels: number, beside?: Float32Array) => {
    const clean = padded(dry, 0.9, 1.3);
    const noise = MAKERS[half]['pink']?.(clean.length, random) ?? clean;
    const loud = Math.sqrt(nearPower / meanPower(noise)) * gainOf(-ROOM_DECIBELS);
    const at = Math.round((0.1 + random() * 1.2) * 16000);
    return clean.map(
      (x, index) => gainOf(decibels) * x + loud * (noise[index] ?? 0) + (beside?.[index - at] ?? 0),
    );
  };
  const foreignVoice = async (wanted: Wanted) => {
    const dry = await dryOf(drawn(others, random), wanted);
    const gain = Math.sqrt(nearPower / spokenPower(dry)) * gainOf(NEXT_RACK_DECIBELS);
    return dry.map((x) => gain * x);
  };
  const coachs = async (decibels: number, wanted = grade()): Promise<Piece> => ({
    sound: inRoom(await dryOf(coach, wanted), decibels),
    ...{ wanted, isForeign: false },
  });
  return {
    near: () => coachs((2 * random() - 1) * VARIES_DECIBELS),
    far: (wanted?: Wanted) => coachs(WALKED_DECIBELS, wanted),
    foreign: async (): Promise<Piece> => {
      const wanted = grade();
      return { sound: inRoom(await foreignVoice(wanted), 0), wanted, isForeign: true };
    },
    both: async (): Promise<Piece> => {
      const wanted = grade();
      const beside = await foreignVoice(grade());
      return { sound: inRoom(await dryOf(coach, wanted), 0, beside), wanted, isForeign: false };
    },
  };
}

const gainOf = (decibels: number) => 10 ** (decibels / 20);

async function speechIn(sound: Float32Array, detector: Detector): Promise<number[]> {
  const speech: number[] = [];
  detector.reset();
  for (let at = 0; at + FRAME <= sound.length; at += FRAME)
    speech.push(await detector.speech(sound.slice(at, at + FRAME)));
  return speech;
}

/** An ear that goes on from piece to piece, with what came of each. */
function earFor(book: CueBook, recogniser: Recogniser, lexicon: Lexicon) {
  let ahead: number[] = [];
  let told: { text: string; confidence: number }[] = [];
  const listening = new Listening({
    recogniser,
    detector: { speech: async () => ahead.shift() ?? 0, reset: () => undefined },
    lexicon,
    urgent: new Set(URGENT),
    tell: (hearing) => {
      if (hearing.type === 'words') told.push(hearing);
    },
  });
  return async ({ sound, wanted, isForeign }: Piece, speech: number[]): Promise<Outcome> => {
    ahead = [...speech];
    told = [];
    listening.attend(grammarAt(book, wanted.prompt));
    for (let at = 0; at + FRAME <= sound.length; at += FRAME)
      await listening.push(sound.slice(at, at + FRAME));
    const { outcome } = outcomeOf(book, { wanted }, told);
    if (!isForeign) return outcome;
    return outcome === 'accepted' ? 'wrong' : outcome === 'asked' ? 'asked-wrong' : outcome;
  };
}

const grammars = new Map<string, Grammar>();
function grammarAt(book: CueBook, prompt: Wanted['prompt']): Grammar {
  const grammar = grammars.get(prompt) ?? grammarOf(book, prompt);
  grammars.set(prompt, grammar);
  return grammar;
}

const shownOf = (figures: RackFigure[]): string =>
  table(
    `The next rack ${-NEXT_RACK_DECIBELS} dB below, after three replies of the coach; a foreign reply is never right`,
    ['row', 'ear', 'half', 'n', 'right', 'asked', 'asked wrong', 'acted on, wrong', 'missed'],
    figures.map(({ row, ear, half, n, outcomes }) => [
      ...[row, ear, half, `${n}`],
      ...(['accepted', 'asked', 'asked-wrong', 'wrong', 'missed'] as const).map(
        (outcome) => `${outcomes[outcome]}`,
      ),
    ]),
  );
