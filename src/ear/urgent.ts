/**
 * Replies that are told before the silence after them: those that halt. Whole utterances only:
 * "don't stop" is none, and "wait" waits where "weight back" may be said (beginnings.ts). Pain is
 * heard out, since its number follows; so are red flags, which end a session for good.
 */
export const URGENT = [
  ...['stop', 'stop stop', 'stop it', 'stop there', 'stop now', 'please stop', 'halt'],
  ...['pause', 'wait', 'hold on', 'hang on'],
];

/** Whether an utterance halts, by itself or after a reply: "knees came forward stop". */
export const isUrgentIn = (urgent: ReadonlySet<string>, text: string): boolean =>
  urgent.has(text) || urgent.has(text.slice(text.lastIndexOf(' ') + 1));
