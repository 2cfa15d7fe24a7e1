import type { PromptId } from '../domain/script';

/** A reply to be read aloud. */
export interface LineToRead {
  prompt: PromptId;
  text: string;
  /** Other words of the same meaning. */
  synonyms: string[];
  /** The line whose meaning it has too, where it is one of its synonyms. */
  insteadOf?: string;
}

/** One reading as it was heard. */
export interface HeardReading {
  /** The words; null where nothing was heard that could be a reply. */
  text: string | null;
  confidence: number;
  phones: string[];
  /** They mean what was to be read. */
  isRight: boolean;
}

/** A line with every reading of it. */
export interface LineRead extends LineToRead {
  tries: HeardReading[];
  isSkipped: boolean;
}

/** How a line is heard: as it was read; not surely; as something else; not at all. */
export type LineVerdict = 'well' | 'unsure' | 'other' | 'unheard' | 'skipped';

/** What a line came to, to be shown. */
export interface LineResult {
  text: string;
  verdict: LineVerdict;
  /** What it was taken for. */
  takenFor: string | null;
  /** Words of the same meaning that were heard well, to be said instead. */
  better: string | null;
}

/** A line is read so often at most. */
export const MOST_TRIES = 2;
/** Other words that are tried after the lines, in all. */
const MOST_SYNONYMS = 6;
/** From here a reply is acted on. */
const SURE = 0.5;

/** Nothing was heard that could be a reply. */
export const unheard = (): HeardReading => ({
  text: null,
  confidence: 0,
  phones: [],
  isRight: false,
});

export const isHeardWell = ({ isRight, confidence }: HeardReading): boolean =>
  isRight && confidence >= SURE;

/** By its last reading: who is heard at the second try is heard. */
export function verdictOf({ tries, isSkipped }: LineRead): LineVerdict {
  if (tries.some(isHeardWell)) return 'well';
  if (isSkipped) return 'skipped';
  if (tries.some(({ isRight }) => isRight)) return 'unsure';
  return tries.some(({ text }) => text !== null) ? 'other' : 'unheard';
}

/** The first synonym of each line that was not heard well. */
export const synonymsToTry = (read: LineRead[]): LineToRead[] =>
  read
    .filter((line) => line.insteadOf === undefined)
    .filter((line) => ['unsure', 'other', 'unheard'].includes(verdictOf(line)))
    .flatMap(({ prompt, text, synonyms }) =>
      synonyms.slice(0, 1).map((other) => ({
        ...{ prompt, text: other, synonyms: [] },
        insteadOf: text,
      })),
    )
    .slice(0, MOST_SYNONYMS);

/** What each line came to, in the order of reading; synonyms stand with their line. */
export const resultsOf = (read: LineRead[]): LineResult[] =>
  read
    .filter((line) => line.insteadOf === undefined)
    .map((line) => {
      const verdict = verdictOf(line);
      const other = line.tries.findLast(({ text, isRight }) => text !== null && !isRight);
      const better = read.find(
        ({ insteadOf, tries }) => insteadOf === line.text && tries.some(isHeardWell),
      );
      return {
        text: line.text,
        verdict,
        takenFor: verdict === 'well' ? null : (other?.text ?? null),
        better: better?.text ?? null,
      };
    });
