import { wordsOf } from '../../../src/cues/grammarWords';
import { bookOf } from '../../../src/cli/verb';
import { grammarOf } from '../../../src/domain/hearing/building';
import { understandEither } from '../../../src/domain/hearing/either';
import { understandOverSpeech } from '../../../src/domain/hearing/overSpeech';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';
import { FRAME } from '../../../src/ear/detecting';
import { lexiconFor } from '../../../src/ear/lexicon';
import { Listening } from '../../../src/ear/listening';
import { nodeDetector, nodeQuick, nodeRecogniser } from '../../../src/ear/node';
import { HEARD_RATE } from '../../../src/ear/resampling';
import { URGENT } from '../../../src/ear/urgent';
import { perceivedBeatSeconds } from '../../../src/tones/perceivedBeat';
import { toneSamples } from '../../../src/tones/shapes';
import { fliteInNode } from '../../../src/voice/node';
import { ownSoundsOf, type OwnSounds } from './session';

/** A session of nothing but Sayso's own voice, heard by its own ear. */
export interface OwnVoiceFigure {
  figure: 'own voice';
  decibels: number;
  minutes: number;
  /** What was told by the ear at all, before it counted what Sayso was saying. */
  told: number;
  /** What a session would have acted on, and asked about, in their words. */
  accepted: string[];
  asked: string[];
}

/** From the loudspeaker to the microphone: the sound's own way, and the device's. */
export const ECHO_DELAY_SECONDS = 0.08;
/** The same that the stage allows for an echo. */
const ECHO_SECONDS = 0.15;
const NOISE = 0.001;

/** What somebody says meanwhile, at 16 kHz. */
export interface SaidOver {
  samples: Float32Array;
  atSeconds: number;
}

/**
 * That session's own sound, so many decibels below what was played, back in its microphone, with
 * what is said over it.
 * @param shard `part` of `of`: which part of it is heard, of so many: several processes share a whole session.
 */
export async function ownVoiceFigure(
  routine: string,
  seconds: number,
  decibels: number,
  over: SaidOver[] = [],
  { part, of } = { part: 1, of: 1 },
): Promise<OwnVoiceFigure> {
  const book = bookOf();
  const sounds = ownSoundsOf(routine, seconds);
  const echo = await echoOf(sounds, decibels);
  for (const { samples, atSeconds } of over) mixInto(echo, samples, atSeconds);
  const figure: OwnVoiceFigure = {
    figure: 'own voice',
    decibels,
    minutes: Math.round(sounds.endSeconds / of / 6) / 10,
    ...{ told: 0, accepted: [], asked: [] },
  };
  let now = 0;
  const listening = new Listening({
    recogniser: await nodeRecogniser(),
    quick: await nodeQuick(),
    detector: await nodeDetector(),
    lexicon: lexiconFor(wordsOf(book)),
    urgent: new Set(URGENT),
    tell: (hearing) => {
      if (hearing.type !== 'words') return;
      figure.told += 1;
      const { prompt, confidence, beganSecondsAgo = 0 } = hearing;
      const line = saidAt(sounds, now - beganSecondsAgo);
      const options = { ...DEFAULT_SETTINGS, confidence };
      const { verdict, heard } =
        line === null
          ? understandEither(book, prompt, hearing, options)
          : understandOverSpeech(book, hearing, options, line);
      if (verdict === 'accept') figure.accepted.push(`${prompt}: ${heard}`);
      if (verdict === 'confirm') figure.asked.push(`${prompt}: ${heard}`);
    },
  });
  const attended = [...sounds.attended];
  listening.attend(grammarOf(book, 'idle'));
  const placeOf = (each: number) => FRAME * Math.floor(((each / of) * echo.length) / FRAME);
  for (let at = placeOf(part - 1); at + FRAME <= placeOf(part); at += FRAME) {
    now = at / HEARD_RATE;
    for (let next = attended[0]; next !== undefined && next.fromSeconds <= now; next = attended[0])
      listening.attend(grammarOf(book, (attended.shift() ?? next).prompt));
    await listening.push(echo.slice(at, at + FRAME));
  }
  return figure;
}

/** The line that was said then, as the stage keeps it; a count is none. */
const saidAt = ({ said }: OwnSounds, seconds: number): string | null =>
  said.find(
    ({ fromSeconds, toSeconds, isCount }) =>
      !isCount && fromSeconds <= seconds && seconds < toSeconds + ECHO_SECONDS,
  )?.text ?? null;

async function echoOf({ said, tones, endSeconds }: OwnSounds, decibels: number) {
  const flite = await fliteInNode();
  const echo = Float32Array.from(
    { length: Math.ceil((endSeconds + 1) * HEARD_RATE) },
    (_, at) => NOISE * Math.sin(at * at),
  );
  const gain = 10 ** (decibels / 20);
  const add = (samples: Float32Array, atSeconds: number) =>
    mixInto(
      echo,
      samples.map((sample) => gain * sample),
      atSeconds + ECHO_DELAY_SECONDS,
    );
  for (const { text, fromSeconds, toSeconds, isCount } of said) {
    const { samples } = flite.synthesize(text);
    const early = isCount ? perceivedBeatSeconds(samples, HEARD_RATE) : 0;
    const long = Math.round((toSeconds - fromSeconds + 0.3) * HEARD_RATE);
    add(samples.subarray(0, long), fromSeconds - early);
  }
  for (const { name, atSeconds } of tones) add(toneSamples(name, HEARD_RATE), atSeconds);
  return echo;
}

function mixInto(sound: Float32Array, samples: Float32Array, atSeconds: number): void {
  const from = Math.round(atSeconds * HEARD_RATE);
  for (let at = Math.max(0, -from); at < samples.length && from + at < sound.length; at += 1)
    sound[from + at] = (sound[from + at] ?? 0) + (samples[at] ?? 0);
}
