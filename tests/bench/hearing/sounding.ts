import { readWav } from '../../../src/ear/node';
import { randomFrom } from '../../ear/noises';
import { OTHER_TALK } from '../../ear/otherTalk';
import { joined, padded } from '../../ear/speech';
import { gymTalk } from '../../sounds/gymTalk';
import type { HumanPhrase } from '../../sounds/human';
import { spokenBy, trimmed, type Half, type Speaker, type Spoken } from '../../sounds/speakers';
import {
  babbleOf,
  echoed,
  MAKERS,
  spokenPower,
  withNoise,
  type NoiseMaker,
} from '../../sounds/surroundings';
import type { ReplyJob, TalkJob } from './jobs';

/** Silence before a reply. */
export const LEAD_SECONDS = 0.9;
const TAIL_SECONDS = 1.3;
const BABBLING_SENTENCES = 24;
/** Even a quiet room has this much noise, decibels below the speech. */
const QUIET_ROOM_DECIBELS = 40;

/** What the babble of each half is made of, and the replies of the next rack. */
export interface Crowd {
  talk: Record<Half, Spoken[]>;
  human: HumanPhrase[];
  neighbours: Spoken[];
}

/** The reported half babbles with its own voices and with people, the tuned half with its own. */
export function crowdOf(speakers: Speaker[], human: HumanPhrase[]): Crowd {
  const random = randomFrom(99);
  const sayings = (half: Half, texts: string[]): Spoken[] => {
    const among = speakers.filter((speaker) => speaker.half === half);
    return among.length === 0
      ? []
      : texts.map((text, at) => ({ speaker: among[at % among.length] as Speaker, text, rate: 1 }));
  };
  const replies = [
    'pass',
    'knees forward',
    'one more',
    'clean set',
    'lost it',
    'left side',
    'ready',
  ];
  return {
    talk: {
      reported: sayings('reported', gymTalk(BABBLING_SENTENCES, random)),
      tuned: sayings('tuned', OTHER_TALK.slice(0, BABBLING_SENTENCES)),
    },
    human: human.filter((_, at) => at % 12 === 0),
    neighbours: [...sayings('reported', replies), ...sayings('tuned', replies)],
  };
}

/** Makes the sound of jobs; the same job always sounds the same. */
export class SoundRoom {
  private readonly babbles = new Map<Half, Promise<NoiseMaker>>();

  constructor(private readonly crowd: Crowd) {}

  /** The reply in its surroundings, and when its speech ends. */
  async reply({ spoken, condition, half, seed }: ReplyJob) {
    const random = randomFrom(seed);
    const dry = await spokenBy(spoken);
    const power = spokenPower(dry);
    const wet = condition.reverb ? echoed(dry, random) : dry;
    const clean = padded(wet, LEAD_SECONDS, TAIL_SECONDS);
    const end = LEAD_SECONDS + dry.length / 16000;
    const room = MAKERS[half]['pink']?.(clean.length, random) ?? clean;
    const quiet = withNoise(clean, power, room, QUIET_ROOM_DECIBELS);
    if (condition.noise === null || condition.decibels === null)
      return { sound: quiet, endSeconds: end };
    const noise =
      condition.noise === 'next rack'
        ? await this.neighbour(half, clean.length, random)
        : (await this.maker(half, condition.noise))(clean.length, random);
    if (condition.noise !== 'next rack')
      return { sound: withNoise(clean, power, noise, condition.decibels), endSeconds: end };
    const gain = 10 ** (-condition.decibels / 20) * Math.sqrt(power / (spokenPower(noise) || 1));
    return { sound: quiet.map((x, at) => x + gain * (noise[at] ?? 0)), endSeconds: end };
  }

  /** A minute of talk with pauses, in noise. */
  async talk({ pieces, decibels, seed }: TalkJob): Promise<Float32Array> {
    const random = randomFrom(seed);
    const parts: Float32Array[] = [new Float32Array(8000)];
    for (const piece of pieces) {
      const speech =
        'speaker' in piece ? await spokenBy(piece) : trimmed(await readWav(piece.path));
      parts.push(speech, new Float32Array(Math.round((0.25 + random() * 0.9) * 16000)));
    }
    const sound = joined(...parts, new Float32Array(12000));
    const makers = ['pink', 'music', 'plates'].map((name) => MAKERS.reported[name]);
    const make = makers[Math.floor(random() * makers.length)];
    return withNoise(sound, spokenPower(sound), make?.(sound.length, random) ?? sound, decibels);
  }

  private async maker(half: Half, name: string): Promise<NoiseMaker> {
    const made = MAKERS[half][name];
    if (made) return made;
    const babble = this.babbles.get(half) ?? this.babble(half);
    this.babbles.set(half, babble);
    return babble;
  }

  private async babble(half: Half): Promise<NoiseMaker> {
    const pieces = await Promise.all(this.crowd.talk[half].map(spokenBy));
    if (half === 'reported')
      for (const { path } of this.crowd.human) pieces.push(trimmed(await readWav(path)));
    return babbleOf(pieces);
  }

  private async neighbour(half: Half, length: number, random: () => number): Promise<Float32Array> {
    const here = this.crowd.neighbours.filter(({ speaker }) => speaker.half === half);
    const other = here[Math.floor(random() * here.length)];
    const speech = other ? await spokenBy(other) : new Float32Array(0);
    const at = Math.round((0.1 + random() * 1.2) * 16000);
    const out = new Float32Array(length);
    out.set(speech.subarray(0, Math.max(0, length - at)), at);
    return out;
  }
}
