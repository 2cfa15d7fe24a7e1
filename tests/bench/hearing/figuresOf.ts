import { confusionFigures } from './confusions';
import type { Done, Figure } from './figures';
import { mishearings, missedFigures, replyFigures } from './replyFigures';
import { talkFigures } from './talkFigures';
import { memoryFigures, timeFigures } from './timeFigures';

/** Every figure of a run. */
export const figuresOf = (done: Done): Figure[] => [
  ...replyFigures(done),
  ...talkFigures(done),
  ...timeFigures(done),
  ...memoryFigures(done),
  ...missedFigures(done),
  ...mishearings(done),
  ...confusionFigures(done),
];
