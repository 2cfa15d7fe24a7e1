import type { Area } from '../areas';
import type { FaultId } from '../faults';
import type { CueBook, PromptId } from '../script';
import { COMMANDS, type Command } from './reply';

/** What a prompt is about; decides which replies it expects. */
export type Prompt =
  | {
      kind: 'result';
      area: Area;
      sided: boolean;
      faults: ReadonlySet<FaultId>;
      /** Its question may be one for yes or no, where an athlete alone is asked. */
      yesOrNo: boolean;
    }
  | { kind: 'pain-number' | 'pain-kind' | 'confirm' | 'idle' };

const FIXED: Record<PromptId, Prompt> = {
  'pain/how-much': { kind: 'pain-number' },
  'pain/kind': { kind: 'pain-kind' },
  confirm: { kind: 'confirm' },
  idle: { kind: 'idle' },
};

/**
 * The prompt of that id: `check/<check>` expects the faults of the check, `set/<drill>` every
 * fault of its area. Null where the book has none of that id.
 */
export function promptOf(book: CueBook, id: PromptId): Prompt | null {
  if (Object.hasOwn(FIXED, id)) return FIXED[id] ?? null;
  const check = id.startsWith('check/') ? own(book.checks, id.slice('check/'.length)) : null;
  if (check)
    return {
      ...{ kind: 'result', area: check.area, sided: check.sided, yesOrNo: false },
      faults: new Set(check.faults),
    };
  const drill = id.startsWith('set/') ? own(book.drills, id.slice('set/'.length)) : null;
  if (!drill) return null;
  const faults = Object.values(book.faults).filter(({ areas }) => areas.includes(drill.area));
  const ids = new Set(faults.map((fault) => fault.id));
  const { area, sided, selfCheck } = drill;
  return { kind: 'result', area, sided, faults: ids, yesOrNo: selfCheck !== undefined };
}

const own = <V>(record: Record<string, V>, key: string): V | null =>
  Object.hasOwn(record, key) ? (record[key] ?? null) : null;

/** Whether the book asks at a prompt of that id. */
export const isPrompt = (book: CueBook, id: string): id is PromptId => promptOf(book, id) !== null;

/** Ids of every prompt: checks, sets, then the fixed ones. */
const idsOf = (book: CueBook): PromptId[] => [
  ...Object.keys(book.checks).map((check) => `check/${check}`),
  ...Object.keys(book.drills).map((drill) => `set/${drill}`),
  ...Object.keys(FIXED),
];

/** Commands that act at a prompt; yes and no only answer where they are asked for. */
export const commandsAt = (prompt: Prompt): readonly Command[] =>
  COMMANDS.filter(
    (command) =>
      (command !== 'yes' && command !== 'no') ||
      prompt.kind === 'confirm' ||
      prompt.kind === 'pain-kind' ||
      (prompt.kind === 'result' && prompt.yesOrNo),
  );

/** Every prompt with the short names of the replies it expects, for people who write scripts. */
export function promptsOf(book: CueBook): { prompt: PromptId; expects: string[] }[] {
  const flags = Object.keys(book.vocabulary.redFlags);
  return idsOf(book).flatMap((id) => {
    const prompt = promptOf(book, id);
    if (!prompt) return [];
    const own =
      prompt.kind === 'result'
        ? [
            ...['held', 'lost', 'short', 'pain', 'not-tested'],
            ...prompt.faults,
            ...(prompt.sided ? ['side', 'same'] : []),
            ...(prompt.area === 'overhead' ? ['angle'] : []),
            'pain 0 to 10',
          ]
        : prompt.kind === 'pain-number'
          ? ['pain 0 to 10', 'new', 'sharp', 'known']
          : prompt.kind === 'pain-kind'
            ? ['new', 'sharp', 'known', 'pain 0 to 10']
            : prompt.kind === 'idle'
              ? ['pain', 'pain 0 to 10', 'same']
              : ['pain', 'pain 0 to 10'];
    return [{ prompt: id, expects: [...own, ...commandsAt(prompt), ...flags] }];
  });
}
