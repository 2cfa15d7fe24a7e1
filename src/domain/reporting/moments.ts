/** What was heard and decided in a session, in its order, as it is read afterwards. */
import type { Area, AreaOutcome } from '../areas';
import { decisionsOf } from './decided';
import { live } from '../deciding/reading';
import { saidIn, saidFindings, type Said } from '../deciding/corrected';
import { bothRead } from '../hearing/readback';
import type { Verdict } from '../hearing/reply';
import type { Entry, EntryOf, FactType } from '../log';
import type { CueBook, PromptId } from '../script';

/** What a person did beside answering. */
const DEEDS = ['undone', 'halted', 'paused', 'resumed', 'red-flag', 'overrule', 'words'] as const;
export type Deed = (typeof DEEDS)[number];

/** What something was corrected to, and when. */
export interface CorrectedTo {
  to: Said;
  /** ISO 8601 with offset. */
  on: string;
}

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
      /** What its findings count as since a correction; nothing where left out. */
      corrected?: CorrectedTo[];
    }
  | { type: 'deed'; deed: Deed; text: string }
  | ({ type: 'decided' } & Pick<EntryOf<'decision'>, 'area' | 'to' | 'because' | 'rule' | 'by'>)
  /** After the session; `corrected`: by a later one, where there is one. */
  | ({ type: 'corrected'; prompt: PromptId; corrected?: CorrectedTo[] } & CorrectedTo)
  /** After a correction: how an area stands now, and how it stood. */
  | { type: 'stands'; area: Area; before: AreaOutcome | null; now: AreaOutcome }
);

/**
 * Everything that was heard, the deeds that are no answers, and the decisions that count, each with
 * its reason; what was taken back or corrected stays, and is said to be.
 */
export function momentsOf(book: CueBook, entries: readonly Entry[]): Moment[] {
  const alive = new Set(live(entries).map(({ id }) => id));
  const counted = new Set(decisionsOf(entries).map(({ id }) => id));
  const said = saidFindings(entries);
  const stood = new Map<Area, AreaOutcome>();
  let isAfter = false;
  return entries.flatMap((entry, at): Moment[] => {
    const { id, atSeconds } = entry;
    if (entry.type === 'heard') {
      const { prompt, text, verdict, reply, and } = entry;
      const understood = reply === null ? null : bothRead(book, reply, and);
      const came = entries[at + 1];
      const isTakenBack = came !== undefined && isAnswer(came) && !alive.has(came.id);
      const its = findingsAfter(entries, at);
      const corrected = said
        .filter(({ finding }) => its.includes(finding.id))
        .flatMap(({ corrections }) => correctedTo(corrections.at(-1)));
      return [
        {
          ...{ id, atSeconds, type: 'heard', prompt, text, verdict, understood, isTakenBack },
          ...(corrected.length > 0 && { corrected }),
        },
      ];
    }
    if (entry.type === 'decision') {
      if (!counted.has(id)) return [];
      const { area, to, because, rule, by } = entry;
      return [{ id, atSeconds, type: 'decided', area, to, because, rule, by }];
    }
    if (entry.type === 'corrected') {
      isAfter = true;
      const { prompt, correctedAt: on } = entry;
      const own = said.find(({ finding, of }) => finding.id === entry.entry && of === entry.of);
      const last = own?.corrections.at(-1);
      const corrected = last === entry ? [] : correctedTo(last);
      return [
        {
          ...{ id, atSeconds, type: 'corrected', prompt, to: saidIn(entry), on },
          ...(corrected.length > 0 && { corrected }),
        },
      ];
    }
    if (entry.type === 'outcome') {
      const { area, outcome: now } = entry;
      const before = stood.get(area) ?? null;
      stood.set(area, now);
      const isNews = isAfter && before !== now;
      return isNews ? [{ id, atSeconds, type: 'stands', area, before, now }] : [];
    }
    return isDeed(entry)
      ? [{ id, atSeconds, type: 'deed', deed: entry.type, text: entry.source.text }]
      : [];
  });
}

const correctedTo = (entry: EntryOf<'corrected'> | undefined): CorrectedTo[] =>
  entry === undefined ? [] : [{ to: saidIn(entry), on: entry.correctedAt }];

/** The findings that what was heard there led to, at once. */
function findingsAfter(entries: readonly Entry[], heard: number): string[] {
  const ids: string[] = [];
  for (const { type, id } of entries.slice(heard + 1)) {
    if (type === 'finding') ids.push(id);
    else if (type !== 'pain-kind') break;
  }
  return ids;
}

const ANSWERS: readonly FactType[] = [
  ...(['finding', 'pain-number', 'pain-kind', 'morning', 'overrule'] as const),
];
const isAnswer = ({ type }: Entry): boolean => ANSWERS.includes(type);
const isDeed = (entry: Entry): entry is EntryOf<Deed> => DEEDS.some((deed) => deed === entry.type);
