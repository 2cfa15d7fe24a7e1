import type { RenderedDrill } from './drills';

/** What can be seen of a rendered drill in its waveform. */
export interface Looked {
  drill: string;
  seconds: number;
  /** Lines that begin before the one before has ended, with how much. */
  overlaps: string[];
  /** Sounds that begin or break off in a single step, out of silence or into it. */
  clicks: number;
  /** Samples at full scale. */
  clipped: number;
  /** From the softest line to the loudest, of their loudest quarter second. */
  loudnessRangeDecibels: number;
  /** The most that a count begins off its moment. */
  worstCountMilliseconds: number;
  counts: number;
}

/** Where the vowel of a count is looked for: before and after its moment. */
const AROUND_SECONDS = 0.2;
/** A step this large beside so long a silence is heard as a click. */
const STEP = 0.1;
const STILL = 0.005;
const STILL_SECONDS = 0.004;

export function lookAt({ drill, samples, sampleRate, said }: RenderedDrill): Looked {
  const inOrder = said.toSorted((a, b) => a.fromSeconds - b.fromSeconds);
  const overlaps = inOrder.flatMap(({ text, fromSeconds }, at) => {
    const over = (inOrder[at - 1]?.toSeconds ?? 0) - fromSeconds;
    return over > 0.001 ? [`"${text}" by ${Math.round(over * 1000)} ms`] : [];
  });
  const clipped = samples.filter((sample) => Math.abs(sample) >= 0.999).length;
  const loud = inOrder.map(({ fromSeconds, toSeconds }) =>
    loudestDecibels(
      samples.subarray(Math.round(fromSeconds * sampleRate), Math.round(toSeconds * sampleRate)),
      sampleRate,
    ),
  );
  const counts = inOrder.filter(({ isCount }) => isCount);
  const off = counts.map(({ fromSeconds }) => {
    const from = Math.round((fromSeconds - AROUND_SECONDS) * sampleRate);
    const around = samples.subarray(from, from + Math.round(3 * AROUND_SECONDS * sampleRate));
    return Math.abs(firstLoud(around) / sampleRate - AROUND_SECONDS);
  });
  return {
    drill,
    seconds: Math.round(samples.length / sampleRate),
    overlaps,
    clicks: clicksIn(samples, sampleRate),
    clipped,
    loudnessRangeDecibels: rounded(Math.max(...loud) - Math.min(...loud)),
    worstCountMilliseconds: rounded(Math.max(0, ...off) * 1000),
    counts: counts.length,
  };
}

/** The first sample of half of the loudest: another way to find a vowel than the app's own. */
function firstLoud(samples: Float32Array): number {
  const most = samples.reduce((loudest, sample) => Math.max(loudest, Math.abs(sample)), 0);
  return samples.findIndex((sample) => Math.abs(sample) >= most / 2);
}

function clicksIn(samples: Float32Array, sampleRate: number): number {
  const still = Math.round(STILL_SECONDS * sampleRate);
  const isStill = (from: number) =>
    samples.subarray(Math.max(0, from), from + still).every((sample) => Math.abs(sample) < STILL);
  let clicks = 0;
  samples.forEach((sample, at) => {
    if (at === 0 || Math.abs(sample - (samples[at - 1] ?? 0)) < STEP) return;
    if (isStill(at - still) || isStill(at)) clicks += 1;
  });
  return clicks;
}

function loudestDecibels(samples: Float32Array, sampleRate: number): number {
  const long = Math.min(samples.length, sampleRate / 4);
  let most = 0;
  for (let at = 0; at + long <= samples.length; at += sampleRate / 40) {
    const piece = samples.subarray(at, at + long);
    most = Math.max(most, piece.reduce((sum, sample) => sum + sample * sample, 0) / long);
  }
  return 10 * Math.log10(most);
}

const rounded = (value: number) => Math.round(value * 100) / 100;
