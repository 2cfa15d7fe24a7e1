/**
 * Replies that are told before the silence after them: those that halt, and those of the body that
 * cannot wait. Whole utterances only: "don't stop" is none of them.
 */
export const URGENT = [
  ...['stop', 'stop stop', 'stop it', 'stop there', 'stop now', 'please stop', 'halt'],
  ...['pause', 'wait', 'hold on', 'hang on'],
  ...['pain', 'that hurts', 'it hurts', 'ow', 'ouch', 'sharp pain', 'chest pain'],
  ...['dizzy', 'i feel dizzy', 'i feel faint'],
];
