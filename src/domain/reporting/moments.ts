/** What was heard and decided in a session, in its order, as it is read afterwards. */
import { decisionsOf } from './decided';
import { live } from '../deciding/reading';
import { bothRead } from '../hearing/readback';
import type { Verdict } from '../hearing/reply';
import type { Entry, EntryOf, FactType } from '../log';
import type { CueBook, PromptId } from '../script';

/** What a person did beside answering. */
const DEEDS = ['undone', 'halted', 'paused', 'resumed', 'red-flag', 'overrule', 'words'] as const;
export type Deed = (typeof DEEDS)[number];

export type Moment = { id: string; atSeconds: number } & (
  | {
      type: 'heard';
      prompt: PromptId;
      /** The words; empty where the answer came by touch, key or pedal. */
      text: string;
      verdict: Verdict;
      /** What they were taken to mean, or null where to nothing. */
      understood: string | null;
      /** It was undone later. */
      isTakenBack: boolean;
    }
  | { type: 'deed'; deed: Deed; text: string }
  | ({ type: 'decided' } & Pick<EntryOf<'decision'>, 'area' | 'to' | 'because' | 'rule' | 'by'>)
);

/**
 * Everything that was heard, the deeds that are no answers, and the decisions that count, each with
 * its reason; what was taken back stays, and is said to be.
 */
export function momentsOf(book: CueBook, entries: readonly Entry[]): Moment[] {
  const alive = new Set(live(entries).map(({ id }) => id));
  const counted = new Set(decisionsOf(entries).map(({ id }) => id));
  return entries.flatMap((entry, at): Moment[] => {
    const { id, atSeconds } = entry;
    if (entry.type === 'heard') {
      const { prompt, text, verdict, reply, and } = entry;
      const understood = reply === null ? null : bothRead(book, reply, and);
      const came = entries[at + 1];
      const isTakenBack = came !== undefined && isAnswer(came) && !alive.has(came.id);
      return [{ id, atSeconds, type: 'heard', prompt, text, verdict, understood, isTakenBack }];
    }
    if (entry.type === 'decision') {
      if (!counted.has(id)) return [];
      const { area, to, because, rule, by } = entry;
      return [{ id, atSeconds, type: 'decided', area, to, because, rule, by }];
    }
    return isDeed(entry)
      ? [{ id, atSeconds, type: 'deed', deed: entry.type, text: entry.source.text }]
      : [];
  });
}

const ANSWERS: readonly FactType[] = ['finding', 'pain-number', 'pain-kind', 'overrule'];
const isAnswer = ({ type }: Entry): boolean => ANSWERS.includes(type);
const isDeed = (entry: Entry): entry is EntryOf<Deed> => DEEDS.some((deed) => deed === entry.type);
