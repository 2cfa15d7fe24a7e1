import { fromCallback } from 'xstate';
import type { WarmUpPlan } from '../domain/warmUp/planning';
import type { Cancel } from '../ports';
import type { Stage } from './stage';

/** `index` of the plan's turns. */
export type PlayingEvent =
  /** The turn begins, `index` one past the last: the closing words; its work begins. */
  { type: 'TURN' | 'WORK'; index: number } | { type: 'PLAYED' };

/**
 * Plays a plan from its beginning: every cue, count and tone at its own time, so that late timers
 * do not add up. A cue that runs long moves the next one, and a count that falls into it is shown
 * but not spoken. Silent at once when left.
 */
export const playingWarmUp = fromCallback<
  { type: 'NONE' },
  { stage: Stage; plan: WarmUpPlan; startedAtMilliseconds: number }
>(({ input: { stage, plan, startedAtMilliseconds }, sendBack }) => {
  const { clock } = stage;
  const cancels: Cancel[] = [];
  const waiting: string[] = [];
  let isSaying = false;
  const at = (seconds: number, run: () => void) => {
    const milliseconds = startedAtMilliseconds + seconds * 1000;
    const timer = clock.setTimeout(run, Math.max(0, milliseconds - clock.now()));
    cancels.push(() => clock.clearTimeout(timer));
  };
  const sayNext = () => {
    const text = waiting.shift();
    isSaying = text !== undefined;
    if (text !== undefined) cancels.push(stage.say(text, sayNext));
  };
  plan.turns.forEach(({ turn, atSeconds, workAtSeconds, endSeconds }, index) => {
    at(atSeconds, () => {
      const counts = plan.heard.flatMap((one) =>
        one.do === 'beat' && one.text !== null && one.atSeconds < endSeconds ? [one.text] : [],
      );
      stage.prepare(turn.told, [...new Set(counts)]);
      sendBack({ type: 'TURN', index });
    });
    at(workAtSeconds, () => {
      const phase = turn.breathing === null ? 'repeating' : 'exhaling';
      stage.show({ type: 'phase', phase, seconds: endSeconds - workAtSeconds });
      sendBack({ type: 'WORK', index });
    });
  });
  const last = plan.turns.at(-1);
  if (last !== undefined)
    at(last.endSeconds, () => sendBack({ type: 'TURN', index: plan.turns.length }));
  for (const one of plan.heard) {
    at(one.atSeconds, () => {
      if (one.do === 'tone') return stage.tone(one.name);
      if (one.do === 'beat') {
        stage.show({ type: 'beat', count: one.count });
        const due = startedAtMilliseconds + one.atSeconds * 1000;
        if (one.text === null || !isSaying)
          cancels.push(stage.beat(one.text, due, () => undefined));
        return;
      }
      waiting.push(one.text);
      if (!isSaying) sayNext();
    });
  }
  at(plan.totalSeconds, () => sendBack({ type: 'PLAYED' }));
  return () => {
    cancels.forEach((cancel) => cancel());
    stage.hush();
  };
});
