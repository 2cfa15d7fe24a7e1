/**
 * Replies that are told before the silence after them: those that halt, and pain. Whole
 * utterances only: "don't stop" is none. Red flags end a session for good, so they are heard out.
 */
export const URGENT = [
  ...['stop', 'stop stop', 'stop it', 'stop there', 'stop now', 'please stop', 'halt'],
  ...['pause', 'wait', 'hold on', 'hang on'],
  ...['pain', 'that hurts', 'it hurts', 'ouch', 'sharp pain'],
];
