import { wordsOf } from '../../../src/cues/grammarWords';
import { repliesToRead } from '../../../src/cues/repliesToRead';
import { withOwnWords, type OwnWords } from '../../../src/domain/hearing/coachWords';
import type { CueBook } from '../../../src/domain/script';
import { UNFITTED, type CoachEar, type Reading } from '../../../src/ear/coach/coachEar';
import { fitted } from '../../../src/ear/coach/fitting';
import { lexiconFor } from '../../../src/ear/lexicon';
import { readerOf, readWav } from '../../../src/ear/node';
import { randomFrom } from '../../ear/noises';
import { OTHER_TALK } from '../../ear/otherTalk';
import { padded } from '../../ear/speech';
import { gymTalk } from '../../sounds/gymTalk';
import { HALVES, spokenBy, trimmed, type Half } from '../../sounds/speakers';
import { MAKERS, spokenPower, withNoise } from '../../sounds/surroundings';
import type { Apart, Stage } from './apart';
import {
  BESIDE_TALK,
  LOUD_DECIBELS,
  shownOf,
  WAYS,
  type CoachFigure,
  type Learnt,
  type Way,
} from './coachFigures';
import { hearing, remembering, type Clip, type Hearing } from './coachHearing';
import { coachesOf, type Coach } from './coachVoices';
import { sampleReplies, understood, type Wanted } from './replies';

/** How much each coach says, and how many pieces of other talk are heard. */
export interface CoachSize {
  replies: number;
  session: number;
  talk: number;
  ownWords: number;
}
const WHOLE: CoachSize = { replies: 60, session: 40, talk: 90, ownWords: 7 };

const READ_AT = [1, 0.9];
const HEARD_AT = [1.1, 1.2, 1.3];
const QUIET_DECIBELS = 30;
const TALK_DECIBELS = 15;

/** Words of a coach's own that the CMU dictionary lacks; voices and lexicon guess them apart. */
const OWN: OwnWords[] = [
  ['results', 'held', 'cushty'],
  ['results', 'short', 'wonky'],
  ['results', 'lost', 'skewiff'],
  ['commands', 'next', 'crackity on'],
  ['commands', 'again', 'reprise it'],
  ['commands', 'skip', 'yeet it'],
  ['faults', 'knees-forward', 'knees kiltered'],
].map(([kind, id, words]) => ({ kind, id, words }) as OwnWords);

/** `--part coach`: what is learnt of the coaches of both halves. */
export function coachPart(stage: Stage): Promise<Apart> {
  const some = (count: number) => Math.max(2, Math.round(count * stage.share));
  const { replies, session, talk, ownWords } = WHOLE;
  const size = { replies: some(replies), session: some(session), talk: some(talk), ownWords };
  return fitCoaches(stage, (half) => coachesOf(half, stage.speakers), size);
}

/**
 * Each coach reads the voice check once in a quiet room, again what was not heard; then other
 * replies at another pace in noise are heard before and after, and other people's talk.
 */
export async function fitCoaches(
  { book, speakers, human, seed }: Omit<Stage, 'sounds' | 'share'>,
  coachesIn: (half: Half) => Coach[],
  size: CoachSize,
): Promise<Omit<Apart, 'figures'> & { figures: (CoachFigure | Learnt)[] }> {
  const reader = remembering(await readerOf('strong'));
  const figures: CoachFigure[] = [];
  const learntOf: Learnt[] = [];
  const ownWords = OWN.slice(0, size.ownWords);
  for (const half of HALVES) {
    const coaches = coachesIn(half);
    if (coaches.length === 0) continue;
    const random = randomFrom(seed);
    const noisy = async (dry: Float32Array, noise: string, decibels: number) => {
      const clean = padded(dry.subarray(0, 9 * 16000), 0.25, 0.3);
      const made = MAKERS[half][noise]?.(clean.length, random) ?? clean;
      return withNoise(clean, spokenPower(dry), made, decibels);
    };
    const others = speakers.filter((speaker) => speaker.half === half);
    const talk: Clip[] = [];
    const texts = half === 'tuned' ? OTHER_TALK : gymTalk(WHOLE.talk, random);
    for (const [at, text] of texts.slice(0, size.talk).entries()) {
      const phrase = half === 'reported' && at % 3 === 0 ? human[(at * 7) % human.length] : null;
      const speaker = others[at % others.length];
      if (!phrase && !speaker) continue;
      const dry = phrase
        ? trimmed(await readWav(phrase.path))
        : speaker
          ? await spokenBy({ speaker, text, rate: 1.1 })
          : new Float32Array(0);
      const prompt = at % 2 === 0 ? 'idle' : 'check/hinge-unloaded';
      talk.push({ sound: await noisy(dry, 'pink', TALK_DECIBELS), prompt, wanted: null });
    }
    for (const coach of coaches) {
      const hear = async (wanted: Wanted, decibels: number): Promise<Clip> => {
        const rate = HEARD_AT[Math.floor(random() * HEARD_AT.length)] ?? 1;
        const noise = ['pink', 'music', 'plates'][Math.floor(random() * 3)] ?? 'pink';
        const dry = await coach.say(wanted.text, rate);
        return { sound: await noisy(dry, noise, decibels), prompt: wanted.prompt, wanted };
      };
      const clips = async (some: Wanted[], decibels = LOUD_DECIBELS) => {
        const made: Clip[] = [];
        for (const wanted of some) made.push(await hear(wanted, decibels));
        return made;
      };
      /** What was read once is not read again for the words of one's own. */
      const asRead = new Map<string, Float32Array>();
      const read = async (book: CueBook, ear: Hearing, own: OwnWords[]) => {
        const readings: Reading[] = [];
        for (const reply of repliesToRead(book, ear.lexicon, { own }))
          for (const rate of READ_AT) {
            const key = `${reply.text} ${rate}`;
            const sound =
              asRead.get(key) ??
              (await noisy(await coach.say(reply.text, rate), 'pink', QUIET_DECIBELS));
            asRead.set(key, sound);
            const reading = await ear.reading({ ...reply, sound });
            if (reading === null) continue;
            readings.push(reading);
            // What was heard surely is read once, except words of one's own, which are learnt.
            const isOwn = own.some(({ words }) => words === reply.text);
            if (!isOwn && reading.confidence !== null && reading.confidence >= 0.5) break;
          }
        return readings;
      };
      const judge = async (kind: CoachFigure['kind'], ear: Hearing, way: Way, said: Clip[]) => {
        const told = { right: 0, asked: 0, wrong: 0, missed: 0, talkActed: 0, talkAsked: 0 };
        for (const clip of said) {
          const outcome = await ear.outcome(clip);
          if (outcome === 'accepted' || outcome === 'asked') told.right += 1;
          if (outcome.startsWith('asked')) told.asked += 1;
          if (outcome === 'wrong') told.wrong += 1;
          if (outcome === 'missed') told.missed += 1;
        }
        const heardTalk = kind !== 'own words' && BESIDE_TALK.includes(way) ? talk : [];
        for (const clip of heardTalk) {
          const verdict = await ear.verdict(clip);
          if (verdict === 'accept') told.talkActed += 1;
          if (verdict === 'confirm') told.talkAsked += 1;
        }
        figures.push({
          ...{ figure: 'coach', half, coach: coach.name, kind, way },
          ...{ replies: said.length, ...told, talk: heardTalk.length },
        });
      };

      const plain = hearing(book, reader, lexiconFor(wordsOf(book)), UNFITTED);
      const said = await clips(sampleReplies(book, size.replies, random));
      const learnt = fitted(await read(book, plain, []), plain.lexicon);
      const session = await clips(sampleReplies(book, size.session, random));
      const confirmed: Reading[] = [];
      for (const clip of session) {
        const outcome = await plain.outcome(clip);
        if (outcome !== 'asked' && outcome !== 'accepted') continue;
        const reading = await plain.reading({ ...clip, text: clip.wanted?.text ?? '' });
        if (reading !== null) confirmed.push({ ...reading, confidence: null });
      }
      const ways: Record<Way, CoachEar> = {
        before: UNFITTED,
        'voice check': learnt,
        'a session': fitted(confirmed, plain.lexicon),
        'pronunciations alone': { ...UNFITTED, variants: learnt.variants },
        'swaps alone': { ...UNFITTED, swaps: learnt.swaps },
        'offset alone': { ...UNFITTED, offset: learnt.offset },
      };
      for (const way of WAYS)
        await judge(coach.kind, hearing(book, reader, plain.lexicon, ways[way]), way, said);

      const worded = withOwnWords(book, ownWords);
      const before = hearing(worded, reader, lexiconFor(wordsOf(worded)), UNFITTED);
      const after = fitted(await read(worded, before, ownWords), before.lexicon);
      const ownSaid = await clips(
        ownWords.flatMap(({ kind, words: text }) => {
          const prompt = kind === 'commands' ? 'idle' : 'check/hinge-unloaded';
          const { reply } = understood(worded, prompt, text);
          return reply === null ? [] : [{ prompt, text, reply }];
        }),
      );
      await judge('own words', before, 'before', ownSaid);
      await judge(
        'own words',
        hearing(worded, reader, before.lexicon, after),
        'voice check',
        ownSaid,
      );
      learntOf.push({ figure: 'learnt', half, coach: coach.name, ...learnt });
    }
  }
  return { figures: [...figures, ...learntOf], goals: [], shown: shownOf(figures) };
}
