/** What would be heard, as a sound file: 16-bit mono PCM. */
import type { ToneName } from '../ports';
import { perceivedBeatSeconds } from '../tones/perceivedBeat';
import { toneSamples } from '../tones/shapes';
import { waveHeader, waveSamples } from '../tones/wave';
import { SAYSO_VOICE } from '../voice/voices';
import { spokenSamples, type Said, type Speak } from './spoken';

/** Cues and counts, and tones, each at its second; the file is a second longer than `seconds`. */
export interface ToMix {
  said: readonly Said[];
  tones: readonly { name: ToneName; atSeconds: number }[];
  seconds: number;
}

/** The next bytes of the file, and how much of it is there with them, 0 to 1. */
export interface FilePart {
  bytes: Uint8Array<ArrayBuffer>;
  share: number;
}

/** A few lines; what is in it is made before the next part is begun. */
const PART_SECONDS = 10;
/** A count begins before its moment, by less than this. */
const EARLY_SECONDS = 1;

/**
 * The file part by part, so that no more than a part of it is ever in reckoning: cues, tones and
 * counts in place, each count with its vowel on its moment. Rejects where the synthesiser does.
 */
export async function* soundFileParts(toMix: ToMix, speak: Speak): AsyncGenerator<FilePart> {
  const { sampleRate } = await speak('one', SAYSO_VOICE);
  const length = Math.ceil((toMix.seconds + 1) * sampleRate);
  yield { bytes: waveHeader(length, sampleRate), share: 0 };
  const make = soundMaker(speak, sampleRate);
  const waiting = [
    ...toMix.said.map((said) => ({ atSeconds: said.fromSeconds, make: () => make(said) })),
    ...toMix.tones.map(({ name, atSeconds }) => ({
      atSeconds,
      make: () => ({ samples: toneSamples(name, sampleRate), early: 0 }),
    })),
  ].sort((one, other) => one.atSeconds - other.atSeconds);
  let sounding: { from: number; samples: Float32Array }[] = [];
  let next = 0;
  for (let from = 0; from < length; from += PART_SECONDS * sampleRate) {
    const mix = new Float32Array(Math.min(PART_SECONDS * sampleRate, length - from));
    const to = from + mix.length;
    for (; next < waiting.length; next += 1) {
      const piece = waiting[next];
      if (piece === undefined || piece.atSeconds - EARLY_SECONDS >= to / sampleRate) break;
      const { samples, early } = await piece.make();
      sounding.push({ from: Math.round((piece.atSeconds - early) * sampleRate), samples });
    }
    for (const sound of sounding) add(mix, sound.samples, sound.from - from);
    sounding = sounding.filter((sound) => sound.from + sound.samples.length > to);
    yield { bytes: waveSamples(mix), share: to / length };
  }
}

/** Makes each line at its volume; counts, and much else, are said again and again. */
function soundMaker(speak: Speak, sampleRate: number) {
  const known = new Map<string, Float32Array>();
  return async (said: Said): Promise<{ samples: Float32Array; early: number }> => {
    const { text, fromSeconds, toSeconds, isCutOff, manner } = said;
    const millisecondsLong = Math.round((toSeconds - fromSeconds) * 1000);
    const name = JSON.stringify([text, millisecondsLong, isCutOff, manner.stretch]);
    const samples = known.get(name) ?? (await spokenSamples(speak, said, sampleRate));
    known.set(name, samples);
    return {
      samples: samples.map((sample) => sample * manner.volume),
      early: said.isCount ? perceivedBeatSeconds(samples, sampleRate) : 0,
    };
  };
}

function add(mix: Float32Array, samples: Float32Array, from: number): void {
  for (let at = Math.max(0, -from); at < samples.length && from + at < mix.length; at += 1) {
    mix[from + at] = (mix[from + at] ?? 0) + (samples[at] ?? 0);
  }
}
