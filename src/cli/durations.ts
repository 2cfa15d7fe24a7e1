import durations from '../cues/durations.json';
import { secondsOf as secondsBy } from '../domain/pacing/duration';

/** How long a text takes to say, in seconds, by the committed table. */
export const secondsOf = (text: string): number => secondsBy(durations, text);
