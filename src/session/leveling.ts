import { fromCallback } from 'xstate';
import { DROPPED_OUT_MILLISECONDS, followed, isStill } from '../domain/tilt/following';
import { middleOf, shinVerdict, type TiltVerdict } from '../domain/tilt/grading';
import { tiltFrom, type TiltRead } from '../domain/tilt/line';
import type { LevelOn, SessionEvent, TiltTelling } from '../ports';
import type { Stage } from './stage';

/** What the level made of one line of the work so far; `lost` once it told nothing for a while. */
export interface LevelRead {
  type: 'LEVEL_READ';
  index: number;
  read: TiltRead | null;
  isLost: boolean;
}

/** A number that changes faster than this cannot be read from three metres. */
const SHOWN_MILLISECONDS = 200;

const TONES = { within: 'upright', outside: 'tilted', close: null } as const;

/**
 * Follows the level while a line of the work goes on: shows its angle, sounds as the shin comes
 * within its ten degrees and as it leaves them, and tells what the line came to. Nothing happens
 * where no phone was set on that limb.
 */
export const leveling = fromCallback<
  { type: 'NONE' },
  { stage: Stage; on: LevelOn | null; index: number }
>(({ input: { stage, on, index }, sendBack }) => {
  const { clock, level } = stage;
  if (level === undefined || level.on !== on) return;
  let following: ReturnType<typeof followed> = null;
  const reads: TiltRead[] = [];
  let sounded: TiltVerdict | null = null;
  let shown: Tilt | null = null;
  let shownAtMilliseconds = -Infinity;
  let silence: unknown;

  const show = (tilt: Tilt) => {
    const isNew = tilt.verdict !== shown?.verdict;
    const isDue = clock.now() - shownAtMilliseconds >= SHOWN_MILLISECONDS;
    if (!isNew && (!isDue || tilt.degrees === shown?.degrees)) return;
    shown = tilt;
    shownAtMilliseconds = clock.now();
    stage.show({ type: 'tilt', on, ...tilt });
  };
  const tell = (isLost: boolean) =>
    sendBack({ type: 'LEVEL_READ', index, read: middleOf(reads), isLost });
  const lost = () => {
    following = null;
    show({ degrees: null, verdict: 'lost' });
    tell(true);
  };
  const awaitNext = () => {
    clock.clearTimeout(silence);
    silence = clock.setTimeout(lost, DROPPED_OUT_MILLISECONDS);
  };
  /** Never over words. */
  const sound = (verdict: TiltVerdict) => {
    if (verdict === sounded || stage.saidAt(clock.now()) !== null) return;
    sounded = verdict;
    const tone = TONES[verdict];
    if (tone !== null) stage.tone(tone);
  };
  const hear = (telling: TiltTelling) => {
    if (telling.type === 'lost') {
      clock.clearTimeout(silence);
      return lost();
    }
    awaitNext();
    following = followed(following, telling.sample);
    if (!isStill(following)) return show({ degrees: null, verdict: 'moving' });
    const read = tiltFrom(level.line, following.smoothed);
    reads.push(read);
    const degrees = Math.round(read.degrees);
    tell(false);
    // An arm overhead is judged by its position, so of the shin alone anything is said.
    if (on !== 'shin') return show({ degrees, verdict: 'read' });
    const verdict = shinVerdict(read);
    show({ degrees, verdict });
    sound(verdict);
  };

  tell(false);
  awaitNext();
  const leave = level.sensor.listen(hear);
  return () => {
    leave();
    clock.clearTimeout(silence);
  };
});

type Tilt = Pick<Extract<SessionEvent, { type: 'tilt' }>, 'degrees' | 'verdict'>;
