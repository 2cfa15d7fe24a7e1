/** What machines do about what they hear, with a log or without. */
import type { Ports, VoiceChange } from '../ports';
import type { HearingEvent } from './hearing';
import type { Stage } from './stage';

/** Any event of such a machine; all but what is meant are passed over. */
type Told = HearingEvent | { type: string };

const isHeard = (event: Told): event is Extract<HearingEvent, { type: 'HEARD' }> =>
  event.type === 'HEARD';

/** What is passed over: said to nobody here, or not understood. */
export type NotTaken = 'ignored' | 'not-taken';
const NOT_TAKEN: readonly string[] = ['ignored', 'not-taken'] satisfies NotTaken[];

/** Whether something is done about words of that meaning. */
export const isTaken = (meaning: string): boolean => !NOT_TAKEN.includes(meaning);

/** Silent at once, with the tone of it. */
export function halt(stage: Stage): void {
  stage.hush();
  stage.tone('halted');
}

/** The sign for a sure reply that may go on: nothing is decided by it. */
export const heardSoFar = (stage: Stage): void => stage.tone('heard');

export function adjustVoice({ voice }: Pick<Ports, 'voice'>, event: Told): void {
  if (isHeard(event)) voice.adjust(event.reading.reply?.command as VoiceChange);
}

export function showHeard(stage: Stage, event: Told): void {
  if (!isHeard(event)) return;
  const { heard: text, verdict, readback } = event.reading;
  stage.show({ type: 'heard', text, verdict, readback });
}

export function showDeaf(stage: Stage, event: Told): void {
  if (event.type === 'DEAF' && 'why' in event)
    stage.show({ type: 'trouble', what: event.why, say: null });
}
