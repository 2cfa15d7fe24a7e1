/** What a leader's word means for a group, and the plan of what is left after it. */
import type { SessionSettings } from '../domain/log';
import type { CueBook } from '../domain/script';
import { planWarmUp, spokenSeconds, type WarmUpPlan } from '../domain/warmUp/planning';
import type { WarmUp } from '../domain/warmUp/warmUp';
import type { Ports } from '../ports';
import { isPain } from './answerFacts';
import type { HearingEvent } from './hearing';
import type { NotTaken } from './reacting';

export interface WarmUpInput {
  book: CueBook;
  ports: Omit<Ports, 'records'>;
  /** How long a text takes to say at the usual pace, in seconds. */
  secondsOf: (text: string) => number;
  settings: SessionSettings;
  /** The word after which alone the leader's words count; null where there is none. */
  callWord: string | null;
  warmUp: WarmUp;
  /** It was promised to end then, milliseconds since 1970; null where nothing was. */
  endsAtMilliseconds: number | null;
  /** The leader leads by voice; else only what stops is taken from the room. */
  isLedByVoice: boolean;
}

export type Meaning =
  | NotTaken
  | 'sign'
  | 'stop'
  | 'pain'
  | 'hold'
  | 'go-on'
  | 'onward'
  | 'anew'
  | 'skip'
  | 'back'
  | 'pace'
  | 'loudness';

type Heard = Pick<Extract<HearingEvent, { type: 'HEARD' }>, 'reading' | 'by'>;

/**
 * The leader needs few words: hold on, go on, one more, skip, go back; stop comes before them all.
 * "Ready" and "go" are said to the group, so by voice they are none; the one button of a remote
 * that says so goes on.
 */
export function meaningOf(
  { reading: { reply, verdict }, by }: Heard,
  isLedByVoice: boolean,
): Meaning {
  if (verdict === 'ignore' || reply === null) return 'ignored';
  if (reply.redFlag !== null) return 'sign';
  if (reply.command === 'stop') return 'stop';
  if (isPain(reply)) return 'pain';
  const isByHand = by === 'hand';
  if (!isByHand && !isLedByVoice) return 'ignored';
  if (verdict !== 'accept') return 'not-taken';
  switch (reply.command) {
    case 'pause':
      return 'hold';
    case 'resume':
      return 'go-on';
    case 'ready':
    case 'done':
      return isByHand ? 'onward' : 'ignored';
    case 'again':
    case 'repeat':
      return 'anew';
    case 'skip':
    case 'next':
      return 'skip';
    case 'back':
      return 'back';
    case 'undo':
      return isByHand ? 'back' : 'not-taken';
    case 'louder':
    case 'quieter':
      return 'loudness';
    case 'slower':
    case 'faster':
      return 'pace';
    default:
      return 'not-taken';
  }
}

/** What is left of it, from that turn on. */
export interface Left {
  done: number;
  isUnderway: boolean;
  skipped: ReadonlySet<number>;
  where: 'stay' | 'back' | null;
  /** A promise could not be kept: as short as it can be. */
  isShortest: boolean;
}

/** To the end that was promised; as short as it can be where that has passed. */
export function planned(
  { book, warmUp, secondsOf, ports, endsAtMilliseconds }: WarmUpInput,
  left: Left,
): { plan: WarmUpPlan; isLate: boolean } {
  const spoken = spokenSeconds(secondsOf, ports.voice.stretch?.() ?? 1);
  const plan = (how: { endSeconds?: number; isShortest?: boolean } = {}) =>
    planWarmUp(book, warmUp, spoken, { ...left, ...how });
  if (endsAtMilliseconds !== null) {
    const kept = plan({ endSeconds: (endsAtMilliseconds - ports.clock.now()) / 1000 });
    if (!('leastSeconds' in kept)) return { plan: kept, isLate: false };
  }
  const whole = plan(endsAtMilliseconds === null ? {} : { isShortest: true });
  if ('leastSeconds' in whole) throw new Error('A warm-up that leaves nothing out has no plan.');
  return { plan: whole, isLate: endsAtMilliseconds !== null && whole.turns.length > 0 };
}
