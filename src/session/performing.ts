import { fromCallback } from 'xstate';
import { BREATH_SECONDS, type PacedLine } from '../domain/pacing/line';
import type { Stage } from './stage';

export type LinePerformed = { type: 'LINE_PERFORMED'; endedAtMilliseconds: number };

/**
 * Performs one paced line: words at its start, beats at their absolute times, and its end at an
 * absolute time too, so that late timers do not add up. Words that run long move the end; a beat
 * that falls into running words is shown but not spoken over them. After the words
 * of a cue there is a breath.
 */
export const performingLine = fromCallback<
  { type: 'NONE' },
  { stage: Stage; line: PacedLine; startMilliseconds: number }
>(({ input: { stage, line, startMilliseconds }, sendBack }) => {
  const { clock } = stage;
  const cancels: (() => void)[] = [];
  let saying = 0;
  let over = false;
  const say = (text: string) => {
    saying += 1;
    cancels.push(
      stage.say(text, () => {
        saying -= 1;
        if (timed) finish(clock.now());
        else at(clock.now() + BREATH_SECONDS * 1000, () => finish(clock.now()));
      }),
    );
  };
  const count = (text: string | null, dueMilliseconds: number) => {
    saying += 1;
    const cancel = stage.beat(text, dueMilliseconds, () => {
      saying -= 1;
      finish(clock.now());
    });
    cancels.push(cancel);
  };
  const at = (milliseconds: number, run: () => void) => {
    const timer = clock.setTimeout(run, Math.max(0, milliseconds - clock.now()));
    cancels.push(() => clock.clearTimeout(timer));
  };
  const timed = line.phase !== 'cueing';
  const deadline = startMilliseconds + line.seconds * 1000;
  let isDue = !timed;
  const finish = (endedAtMilliseconds: number) => {
    if (over || !isDue || saying > 0) return;
    over = true;
    sendBack({ type: 'LINE_PERFORMED', endedAtMilliseconds });
  };

  stage.show({ type: 'phase', phase: line.phase, seconds: timed ? line.seconds : null });
  for (const beat of line.beats) {
    const due = startMilliseconds + beat.atSeconds * 1000;
    at(due, () => {
      stage.show({ type: 'beat', count: beat.count });
      if (beat.text === null || saying === 0) count(beat.text, due);
    });
  }
  if (timed) {
    at(deadline, () => {
      isDue = true;
      finish(deadline);
    });
  }
  if (line.text !== null) say(line.text);
  else if (!timed) finish(startMilliseconds);
  // A last count rings out; what is said next waits for it.
  return () => {
    if (!over) cancels.forEach((cancel) => cancel());
  };
});
