import { isHalted, isPaused, nextStep, undoable } from '../domain/deciding/deciding';
import { openOffer } from '../domain/deciding/offering';
import type { Decision } from '../domain/deciding/step';
import type { Command } from '../domain/hearing/reply';
import type { Entry } from '../domain/log';
import type { CueBook, PromptId } from '../domain/script';
import { isPain } from './answerFacts';
import type { Weighed } from './weighing';

/** What something heard means for the session as a whole, before any question may have it. */
export type Meaning =
  | 'ignored'
  | 'red-flag'
  | 'stop'
  | 'stop-again'
  | 'pain'
  | 'pause'
  | 'resume'
  | 'undo'
  | 'nothing-to-undo'
  | 'overrule'
  | 'manner'
  | 'words'
  | 'repeat'
  | 'ready'
  | 'rep'
  | 'done'
  | 'help'
  | 'time-left'
  | 'which'
  | 'which-one'
  | 'lacks'
  | 'not-here'
  | 'next-person'
  | 'nobody-else'
  | 'pain-first'
  | 'kept'
  | 'answer';

export interface Standing {
  book: CueBook;
  log: Entry[];
  decision: Decision | null;
  /** On a squad day somebody else is still to come. */
  othersWait: boolean;
}

const OVERRULES: Command[] = ['again', 'skip', 'next', 'back', 'lighter', 'heavier', 'go-to'];
const MANNERS: Command[] = ['louder', 'quieter', 'slower', 'faster'];
const WORDS: Command[] = ['fewer-words', 'more-words'];
const PLAIN = ['repeat', 'ready', 'rep', 'done', 'help', 'time-left'] as const;

/**
 * Whether a pause holds what was decided. Not the question whether to end, and not a question
 * about pain that was spoken of during the pause: that one cannot wait.
 */
export function isHeld({ log, decision }: Pick<Standing, 'log' | 'decision'>): boolean {
  const step = decision?.step;
  if (!isPaused(log) || step?.do === 'end') return false;
  if (step?.do !== 'ask') return true;
  const lastOf = (type: Entry['type']) => log.findLastIndex((entry) => entry.type === type);
  return step.about !== 'end-session' && lastOf('paused') > lastOf('finding');
}

/**
 * Order matters: a red flag, "stop" and pain come before everything, whoever is asking, and do
 * not wait for a confirmation.
 */
export function meaningOf(reading: Weighed, prompt: PromptId, standing: Standing): Meaning {
  const { reply, verdict } = reading;
  if (verdict === 'ignore' || reply === null) return 'ignored';
  if (reply.redFlag !== null) return 'red-flag';
  const halted = isHalted(standing.log);
  if (reply.command === 'stop') return halted ? 'stop-again' : 'stop';
  const asked = standing.decision?.step.do === 'ask' ? standing.decision.step.about : null;
  // Half heard, with another reading beside it, pain is asked about where no work goes on.
  const isEither = reading.other !== undefined && prompt !== 'idle' && asked === null;
  if (isPain(reply)) return asked?.startsWith('pain') || isEither ? 'answer' : 'pain';
  if (isHeld(standing)) {
    if (reply.command === 'next-person' && verdict === 'accept') return leaving(standing);
    return reply.command === 'resume' && verdict === 'accept' ? 'resume' : 'ignored';
  }
  if (verdict === 'confirm') {
    if (reply.command === 'go-to' && reply.target === null) {
      return asked === null ? 'which-one' : 'not-here';
    }
    if (reading.lacks !== undefined) return prompt === 'idle' ? 'ignored' : 'lacks';
    if (prompt !== 'idle') return 'answer';
    if (reply.command === 'back') return 'which';
    return reply.result === null ? 'ignored' : 'kept';
  }
  if (reply.command !== null) return commandMeaning(reply.command, asked, standing);
  return prompt === 'idle' && reply.result !== null ? 'kept' : 'answer';
}

function commandMeaning(command: Command, asked: string | null, standing: Standing): Meaning {
  if (command === 'yes' || command === 'no') return 'answer';
  if (command === 'resume') return asked === 'end-session' ? 'answer' : 'ignored';
  if (command === 'pause') return asked === 'end-session' ? 'ignored' : 'pause';
  if (command === 'next-person') return asked === 'end-session' ? 'not-here' : leaving(standing);
  if (command === 'undo') {
    return undoable(standing.book, standing.log) === null ? 'nothing-to-undo' : 'undo';
  }
  if (OVERRULES.includes(command)) return asked === null ? 'overrule' : 'not-here';
  if (MANNERS.includes(command)) return 'manner';
  if (WORDS.includes(command)) return 'words';
  return PLAIN.find((plain) => plain === command) ?? 'not-here';
}

/**
 * What "next person" means: not while pain is asked about, or is on record and about to be. What
 * the log decides now counts, since an answer may be on its way to the record.
 */
function leaving({ book, log, othersWait }: Standing): Meaning {
  const { step } = nextStep(book, log);
  if (step.do === 'end') return 'ignored';
  const offer = openOffer(log);
  const offers = [offer?.reply, offer?.other?.reply].flatMap((reply) => reply ?? []);
  if ((step.do === 'ask' && step.about !== 'end-session') || offers.some(isPain))
    return 'pain-first';
  return othersWait ? 'next-person' : 'nobody-else';
}
