import { wordsOf } from '../../../src/cues/grammarWords';
import { repliesToRead } from '../../../src/cues/repliesToRead';
import { grammarOf } from '../../../src/domain/hearing/building';
import { withOwnWords, type OwnWords } from '../../../src/domain/hearing/coachWords';
import type { Grammar } from '../../../src/domain/hearing/grammar';
import { proportionOf } from '../../../src/domain/measuring/proportion';
import type { CueBook, PromptId } from '../../../src/domain/script';
import { lexiconOf, UNFITTED, type CoachEar, type Reading } from '../../../src/ear/coach/coachEar';
import { fittedReader } from '../../../src/ear/coach/fittedReader';
import { fitted } from '../../../src/ear/coach/fitting';
import { freeRowOf } from '../../../src/ear/coach/rows';
import { lexiconFor, type Lexicon } from '../../../src/ear/lexicon';
import { readerOf, readWav } from '../../../src/ear/node';
import type { PhoneReader } from '../../../src/ear/phoneReader';
import { createRecogniser, type Recogniser } from '../../../src/ear/recognising';
import { randomFrom } from '../../ear/noises';
import { OTHER_TALK } from '../../ear/otherTalk';
import { padded } from '../../ear/speech';
import { gymTalk } from '../../sounds/gymTalk';
import { HALVES, spokenBy, trimmed, type Half } from '../../sounds/speakers';
import { MAKERS, spokenPower, withNoise } from '../../sounds/surroundings';
import type { Apart, Stage } from './apart';
import { coachesOf, type Coach } from './coachVoices';
import { outcomeOf } from './hearing';
import { table } from './printing';
import { sampleReplies, understood, type Wanted } from './replies';

const REPLIES_EACH = 60;
const SESSION_REPLIES = 40;
const TALK_EACH = 90;
const READ_AT = [1, 0.9];
const HEARD_AT = [1.1, 1.2, 1.3];
const QUIET_DECIBELS = 30;
const LOUD_DECIBELS = 10;
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

/** One clip: what was said, where, in which noise. */
interface Clip {
  sound: Float32Array;
  prompt: PromptId;
  wanted: Wanted | null;
}

/** What is learnt from: nothing, the voice check, a session, or only a part of the check. */
const WAYS = [
  'before',
  'voice check',
  'a session',
  'pronunciations alone',
  'swaps alone',
  'offset alone',
] as const;
type Way = (typeof WAYS)[number];
/** Those that other people's talk is heard by too. */
const BESIDE_TALK: Way[] = ['before', 'voice check', 'offset alone'];

interface Figure {
  figure: 'coach';
  half: Half;
  coach: string;
  kind: Coach['kind'] | 'own words';
  way: Way;
  replies: number;
  right: number;
  asked: number;
  wrong: number;
  missed: number;
  talk: number;
  talkActed: number;
  talkAsked: number;
}

/**
 * Each coach reads the voice check once in a quiet room, again what was not heard; then other
 * replies at another pace in noise are heard before and after, and other people's talk.
 */
export async function coachPart({ book, speakers, human, seed, share }: Stage): Promise<Apart> {
  const reader = remembering(await readerOf('strong'));
  const figures: Figure[] = [];
  const count = (whole: number) => Math.max(2, Math.round(whole * share));
  for (const half of HALVES) {
    const random = randomFrom(seed);
    const noisy = async (dry: Float32Array, noise: string, decibels: number) => {
      const clean = padded(dry.subarray(0, 9 * 16000), 0.25, 0.3);
      const made = MAKERS[half][noise]?.(clean.length, random) ?? clean;
      return withNoise(clean, spokenPower(dry), made, decibels);
    };
    const others = speakers.filter((speaker) => speaker.half === half);
    const talk: Clip[] = [];
    const texts = half === 'tuned' ? OTHER_TALK : gymTalk(TALK_EACH, random);
    for (const [at, text] of texts.slice(0, count(TALK_EACH)).entries()) {
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
    for (const coach of coachesOf(half, speakers)) {
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
      const read = async (book: CueBook, ear: Hearing, own: OwnWords[]) => {
        const readings: Reading[] = [];
        for (const reply of repliesToRead(book, ear.lexicon, { own }))
          for (const rate of READ_AT) {
            const dry = await coach.say(reply.text, rate);
            const sound = await noisy(dry, 'pink', QUIET_DECIBELS);
            const reading = await ear.reading({ ...reply, sound });
            if (reading === null) continue;
            readings.push(reading);
            // What was heard surely is read once, except words of one's own, which are learnt.
            const isOwn = own.some(({ words }) => words === reply.text);
            if (!isOwn && reading.confidence !== null && reading.confidence >= 0.5) break;
          }
        return readings;
      };
      const judge = async (kind: Figure['kind'], ear: Hearing, way: Way, said: Clip[]) => {
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
      const said = await clips(sampleReplies(book, count(REPLIES_EACH), random));
      const learnt = fitted(await read(book, plain, []), plain.lexicon);
      const session = await clips(sampleReplies(book, count(SESSION_REPLIES), random));
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

      const worded = withOwnWords(book, OWN);
      const before = hearing(worded, reader, lexiconFor(wordsOf(worded)), UNFITTED);
      const after = fitted(await read(worded, before, OWN), before.lexicon);
      const ownSaid = await clips(
        OWN.flatMap(({ kind, words: text }) => {
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
      console.error(`${coach.name}: ${JSON.stringify(learnt)}`);
    }
  }
  return { figures, goals: [], shown: shownOf(figures) };
}

type Hearing = ReturnType<typeof hearing>;

/** An ear fitted to a coach, with what it makes of a clip. */
function hearing(book: CueBook, reader: PhoneReader, base: Lexicon, coach: CoachEar) {
  const recogniser: Recogniser = createRecogniser(fittedReader(reader, coach));
  const lexicon = lexiconOf(base, coach);
  const grammars = new Map<PromptId, Grammar>();
  const grammarAt = (prompt: PromptId) => {
    const grammar = grammars.get(prompt) ?? grammarOf(book, prompt);
    grammars.set(prompt, grammar);
    return grammar;
  };
  const hear = ({ sound, prompt }: Pick<Clip, 'sound' | 'prompt'>) =>
    recogniser.hear(sound, grammarAt(prompt), lexicon);
  return {
    lexicon,
    outcome: async (clip: Clip) => {
      const heard = await hear(clip);
      const told = heard === null ? [] : [heard];
      return clip.wanted === null
        ? 'missed'
        : outcomeOf(book, { wanted: clip.wanted }, told).outcome;
    },
    verdict: async (clip: Clip) => {
      const heard = await hear(clip);
      return heard && understood(book, clip.prompt, heard.text, heard.confidence).verdict;
    },
    reading: async (clip: Pick<Clip, 'sound' | 'prompt'> & { text: string }) => {
      const weighed = await recogniser.weigh(clip.sound, grammarAt(clip.prompt), lexicon);
      if (weighed === null) return null;
      const isRight =
        JSON.stringify(understood(book, clip.prompt, weighed.decoded.text).reply) ===
        JSON.stringify(understood(book, clip.prompt, clip.text).reply);
      return {
        text: clip.text,
        phones: freeRowOf(weighed.posteriors),
        confidence: isRight ? weighed.confidence : null,
      };
    },
  };
}

/** What a sound was read as is kept, so that another fit costs only its scoring. */
function remembering(reader: PhoneReader): PhoneReader {
  const known = new Map<string, ReturnType<PhoneReader['read']>>();
  return {
    belief: reader.belief,
    read: (samples) => {
      let hash = 0x811c9dc5;
      for (const bits of new Uint32Array(samples.buffer, samples.byteOffset, samples.length))
        hash = Math.imul(hash ^ bits, 0x01000193);
      const key = `${samples.length}:${hash >>> 0}`;
      const read = known.get(key) ?? reader.read(samples);
      known.set(key, read);
      return read;
    },
  };
}

function shownOf(figures: Figure[]): string {
  const rows = HALVES.flatMap((half) =>
    (['plain', 'accent', 'own words'] as const).flatMap((kind) =>
      WAYS.flatMap((way) => {
        const some = figures.filter(
          (each) => each.half === half && each.kind === kind && each.way === way,
        );
        const sum = (of: (figure: Figure) => number) =>
          some.reduce((total, figure) => total + of(figure), 0);
        const n = sum(({ replies }) => replies);
        if (n === 0) return [];
        const share = (part: number) => {
          const { from, to } = proportionOf(part, n);
          return `${(100 * (part / n)).toFixed(1)} (${(100 * from).toFixed(1)}-${(100 * to).toFixed(1)})`;
        };
        return [
          [
            `${half}, ${kind}`,
            way,
            `${n}`,
            share(sum(({ right }) => right)),
            share(sum(({ wrong }) => wrong)),
            `${sum(({ asked }) => asked)}`,
            `${sum(({ missed }) => missed)}`,
            `${sum(({ talkActed }) => talkActed)} + ${sum(({ talkAsked }) => talkAsked)} of ${sum(({ talk }) => talk)}`,
          ],
        ];
      }),
    ),
  );
  return table(
    `Fitted to a coach, noise at ${LOUD_DECIBELS} dB, % with 95 % intervals; other talk acted on + asked about`,
    ['coaches', 'learnt from', 'n', 'right', 'acted on, wrong', 'asked', 'missed', 'other talk'],
    rows,
  );
}
