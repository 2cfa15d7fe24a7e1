import type { EndReason } from '../../domain/log';

/** Why a session ended, as a title and in a sentence. */
export const REASON_WORDS: Record<EndReason, { title: string; text: string }> = {
  completed: { title: 'Session done', text: 'Every step was taken.' },
  stopped: {
    title: 'Session ended',
    text: 'You ended it. What was found until then is kept.',
  },
  'red-flag': {
    title: 'Ended on a warning sign',
    text: 'No more work today. A licensed professional decides what comes next. Chest pain, fainting or trouble breathing that does not settle: call the emergency number now.',
  },
  'replies-ended': {
    title: 'The replies ended',
    text: 'A question stayed open. What was found until then is kept.',
  },
};
