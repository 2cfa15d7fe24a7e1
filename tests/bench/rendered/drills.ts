import { secondsOf } from '../../../src/cli/durations';
import type { TimedEvent } from '../../../src/cli/rehearsalHall';
import { rehearse } from '../../../src/cli/rehearsing';
import { rehearsalToMix, soundFileOf } from '../../../src/cli/sounding';
import { bookOf } from '../../../src/cli/verb';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';
import { soundOf } from '../../../src/ear/wav';
import type { Said } from '../../../src/mixing/spoken';

/** One set of a drill as it would be heard, from its first cue to its question. */
export interface RenderedDrill {
  drill: string;
  samples: Float32Array;
  sampleRate: number;
  /** Lines and counts, in seconds of this sound. */
  said: Said[];
  /** When each tone sounds. */
  tonesAtSeconds: { name: string; atSeconds: number }[];
}

/** Drills of three areas, each reached by replies that bring one to it. */
const ROUTES: { routine: string; replies: string[] }[] = [
  { routine: 'hinge', replies: ['knees came forward', 'knees came forward', 'clean'] },
  { routine: 'squat', replies: Array.from({ length: 8 }, () => 'heels came up') },
  { routine: 'overhead', replies: Array.from({ length: 12 }, () => 'ribs flared') },
];

/** The first set of a drill in each area, cut out of a whole session that was rendered. */
export async function renderedDrills(count = ROUTES.length): Promise<RenderedDrill[]> {
  const rendered: RenderedDrill[] = [];
  for (const { routine, replies } of ROUTES.slice(0, count)) {
    const rehearsed = rehearse({
      ...{ book: bookOf(), routine, way: 'hands-on', settings: DEFAULT_SETTINGS, secondsOf },
      replies: {
        inTurn: replies.map((text, at) => ({ line: at + 1, text, audio: null })),
        timed: [],
      },
    });
    const { timeline, said } = rehearsed;
    const isSet = (event: TimedEvent) =>
      event.type === 'step' && event.prompt.startsWith('set/') && event.set === 1;
    const from = timeline.find(isSet);
    if (from?.type !== 'step') throw new Error(`No drill was come to in the routine ${routine}.`);
    const listen = timeline.find(
      ({ type, atSeconds }) => type === 'listen' && atSeconds > from.atSeconds,
    );
    const until = listen?.atSeconds ?? timeline.at(-1)?.atSeconds ?? 0;
    const isIn = (seconds: number) => seconds >= from.atSeconds && seconds < until;
    const { samples, sampleRate } = soundOf(
      await soundFileOf(rehearsalToMix(rehearsed)),
      'session.wav',
    );
    rendered.push({
      drill: from.prompt.slice('set/'.length),
      samples: samples.slice(
        Math.round(from.atSeconds * sampleRate),
        Math.round((until + 0.5) * sampleRate),
      ),
      sampleRate,
      said: said
        .filter(({ fromSeconds }) => isIn(fromSeconds))
        .map((piece) => ({
          ...piece,
          fromSeconds: piece.fromSeconds - from.atSeconds,
          toSeconds: piece.toSeconds - from.atSeconds,
        })),
      tonesAtSeconds: timeline.flatMap((event) =>
        event.type === 'tone' && isIn(event.atSeconds)
          ? [{ name: event.name, atSeconds: event.atSeconds - from.atSeconds }]
          : [],
      ),
    });
  }
  return rendered;
}
