import { bookOf } from '../../../src/cli/verb';
import { wordsOf } from '../../../src/cues/grammarWords';
import { grammarOf } from '../../../src/domain/hearing/building';
import { understandEither } from '../../../src/domain/hearing/either';
import { understandOverSpeech } from '../../../src/domain/hearing/overSpeech';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';
import { FRAME } from '../../../src/ear/detecting';
import { lexiconFor } from '../../../src/ear/lexicon';
import { Listening } from '../../../src/ear/listening';
import { nodeDetector, nodeQuick, readerOf } from '../../../src/ear/node';
import { createRecogniser } from '../../../src/ear/recognising';
import { HEARD_RATE } from '../../../src/ear/resampling';
import { URGENT } from '../../../src/ear/urgent';
import { fliteInNode } from '../../../src/voice/node';
import { spokenBy, type Speaker } from '../../sounds/speakers';
import { spokenPower } from '../../sounds/surroundings';
import { SecondThread } from './secondThread';
import { figureFrom, type StopFigure } from './stopping';

/** Lines of our own, each long enough for a word in its middle. */
const LINES = [
  'Welcome. I say each cue, and you tell me what you see.',
  'Lie on your back. Knees bent, feet flat, one hand on the lower ribs.',
  'Breathe out long through the mouth, until the ribs come down.',
];
/** Where in the line the word begins. */
const AFTER_SECONDS = [0.5, 0.8, 1.1, 1.4, 1.7];
const LINE_DECIBELS = -30;
/** A word with no line beneath it. */
const ALONE_DECIBELS = -20;
const BEFORE_SECONDS = 1;
/** What is told later is missed. */
const LATEST_SECONDS = 1.5;

/** Words that begin or rhyme as "stop" does, as they are said beside a bar (common practice, no source). */
export const NEAR_PHRASES = [
  'stack your ribs',
  'step up now',
  'star jump',
  'stock up on plates',
  'start again from the top',
  'stay tall',
  'stand up tall',
  'the top of the rack',
  'drop the hips',
  'stiff legs',
  'stuff the towel under',
  'strap the bar',
  'store it over there',
  'stops and starts',
  'stop watch',
  'pop the hips',
  'hop off the box',
  'talk me through it',
  'stomp the floor',
  'still too high',
];

/** What halts though it is no stop word, and by how many of the voices. */
export interface NearFigure {
  figure: 'near to stop';
  n: number;
  halted: Record<string, number>;
}

/**
 * From the end of "stop" over a line until it is told, by the sound's own clock: what the first
 * thread, the microphone and the loudspeaker take comes on top.
 * @param size how far the word lies above the line; of how many lines and places in them.
 */
export async function ownTimeFigure(
  speakers: Speaker[],
  size: { aboveDecibels: number; lines?: number; places?: number },
): Promise<StopFigure> {
  const haltsIn = await halting();
  const flite = await fliteInNode();
  const took: { name: string; milliseconds: number | null }[] = [];
  for (const line of LINES.slice(0, size.lines))
    for (const afterSeconds of AFTER_SECONDS.slice(0, size.places))
      for (const speaker of speakers) {
        const stop = await spokenBy({ speaker, text: 'stop', rate: 1 });
        const word = loud(LINE_DECIBELS + size.aboveDecibels, stop);
        const begins = BEFORE_SECONDS + afterSeconds;
        const ends = begins + word.length / HEARD_RATE;
        const sound = hiss(ends + LATEST_SECONDS);
        mixInto(sound, loud(LINE_DECIBELS, flite.synthesize(line).samples), BEFORE_SECONDS);
        mixInto(sound, word, begins);
        const toldAt = await haltsIn(sound, line);
        const milliseconds = toldAt === null ? null : (toldAt - ends) * 1000;
        took.push({ name: speaker.name, milliseconds });
      }
  return figureFrom('in its own time', took);
}

/** Those phrases by each voice, in a quiet room while nothing is asked and nothing is said. */
export async function nearFigure(speakers: Speaker[], phrases = NEAR_PHRASES): Promise<NearFigure> {
  const haltsIn = await halting();
  const halted: Record<string, number> = {};
  for (const text of phrases)
    for (const speaker of speakers) {
      const said = loud(ALONE_DECIBELS, await spokenBy({ speaker, text, rate: 1 }));
      const sound = hiss(BEFORE_SECONDS + said.length / HEARD_RATE + LATEST_SECONDS);
      mixInto(sound, said, BEFORE_SECONDS);
      if ((await haltsIn(sound, null)) !== null) halted[text] = (halted[text] ?? 0) + 1;
    }
  return { figure: 'near to stop', n: phrases.length * speakers.length, halted };
}

/** When a session halts in this sound, over this line of its own; null where it does not. */
async function halting() {
  const book = bookOf();
  const lexicon = lexiconFor(wordsOf(book));
  const [quick, detector] = [await nodeQuick(), await nodeDetector()];
  const reader = await readerOf('strong');
  let reading = 0;
  const inFirstThread = async <Found>(work: Promise<Found>): Promise<Found> => {
    reading += 1;
    return work.finally(() => (reading -= 1));
  };
  return async (sound: Float32Array, line: string | null): Promise<number | null> => {
    detector.reset();
    const thread = new SecondThread((again) => createRecogniser(reader, 2, again));
    let haltedAt: number | null = null;
    const listening = new Listening({
      recogniser: thread,
      quick: { ...quick, look: (...asked) => inFirstThread(quick.look(...asked)) },
      detector: { ...detector, speech: (frame) => inFirstThread(detector.speech(frame)) },
      lexicon,
      urgent: new Set(URGENT),
      tell: (hearing) => {
        if (hearing.type !== 'words' || !URGENT.includes(hearing.text)) return;
        const options = { ...DEFAULT_SETTINGS, confidence: hearing.confidence };
        const { verdict } =
          line === null
            ? understandEither(book, 'idle', hearing, options)
            : understandOverSpeech(book, hearing, options, line);
        if (verdict === 'accept') haltedAt ??= thread.nowSeconds;
      },
    });
    listening.attend(grammarOf(book, 'idle'));
    for (let from = 0; from + FRAME <= sound.length && haltedAt === null; from += FRAME) {
      await thread.until((from + FRAME) / HEARD_RATE);
      let isHeard = false;
      void listening.push(sound.slice(from, from + FRAME)).then(() => (isHeard = true));
      while (!isHeard) {
        await new Promise(setImmediate);
        if (!isHeard && reading === 0) await thread.waitedFor();
      }
    }
    return haltedAt;
  };
}

const hiss = (seconds: number): Float32Array =>
  Float32Array.from(
    { length: Math.ceil(seconds * HEARD_RATE) },
    (_, at) => Math.sin(at * at) / 1000,
  );

function mixInto(sound: Float32Array, other: Float32Array, atSeconds: number): void {
  const from = Math.round(atSeconds * HEARD_RATE);
  for (let at = 0; at < other.length && from + at < sound.length; at += 1)
    sound[from + at]! += other[at] as number;
}

/** So loud where it is spoken, decibels below full scale. */
function loud(decibels: number, sound: Float32Array): Float32Array {
  const gain = 10 ** ((decibels - 10 * Math.log10(spokenPower(sound))) / 20);
  return sound.map((sample) => gain * sample);
}
