import { NO_REPLY, type Command, type Reply } from '../../domain/hearing/reply';
import type { CueBook, PromptId } from '../../domain/script';
import type { Fault, FaultId } from '../../domain/faults';
import { subjectOf } from '../words';

/** A reply made by touch: what was not tapped stays unsaid. */
export const replyOf = (said: Partial<Reply>): Reply => ({ ...NO_REPLY, ...said });

export const commandOf = (command: Command): Reply => replyOf({ command });

/** The faults a prompt expects: a check has its own list, a set every fault of its area. */
export function faultsAt(book: CueBook, prompt: PromptId): Fault[] {
  const subject = subjectOf(book, prompt);
  if (subject === null) return [];
  const listed = 'faults' in subject ? subject.faults : null;
  return Object.values(book.faults).filter(({ id, areas }) =>
    listed === null ? areas.includes(subject.area) : listed.includes(id),
  );
}

/** Range faults alone leave the position kept, so the result is `short`; all else is `lost`. */
export const resultWith = (book: CueBook, faults: FaultId[]): 'lost' | 'short' =>
  faults.length > 0 && faults.every((id) => book.faults[id]?.kind === 'range') ? 'short' : 'lost';
