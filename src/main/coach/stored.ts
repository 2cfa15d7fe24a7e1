import type { OwnWords } from '../../domain/hearing/coachWords';
import type { Reading } from '../../ear/coach/coachEar';

/** Own words with how those sound that the book's lexicon lacks. */
export interface KeptWords extends OwnWords {
  said: Record<string, string[][]>;
}

/** All that a device keeps of its coach: words and rows of phones, never sound. */
export interface KnownCoach {
  ownWords: KeptWords[];
  callWord: string | null;
  /** How the call word sounds. */
  callWordSaid: Record<string, string[][]>;
  readings: Reading[];
}

export const STRANGER: KnownCoach = {
  ownWords: [],
  callWord: null,
  callWordSaid: {},
  readings: [],
};

const FORMAT = 'sayso-coach-1';

export const textOf = (coach: KnownCoach): string => JSON.stringify({ format: FORMAT, ...coach });

/** What was kept; null where the text is none of it. */
export function coachFrom(text: string): KnownCoach | null {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return null;
  }
  if (!isRecord(data) || data['format'] !== FORMAT) return null;
  const { ownWords, callWord, callWordSaid, readings } = data;
  return isListOf(ownWords, isKeptWords) &&
    (callWord === null || typeof callWord === 'string') &&
    isSaid(callWordSaid) &&
    isListOf(readings, isReading)
    ? { ownWords, callWord, callWordSaid, readings }
    : null;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isListOf = <T>(value: unknown, is: (each: unknown) => each is T): value is T[] =>
  Array.isArray(value) && value.every(is);

const isText = (value: unknown): value is string => typeof value === 'string' && value !== '';
const isPhones = (value: unknown): value is string[] => isListOf(value, isText);

const isSaid = (value: unknown): value is Record<string, string[][]> =>
  isRecord(value) && Object.values(value).every((said) => isListOf(said, isPhones));

const KINDS = ['results', 'faults', 'commands', 'sides', 'pain', 'redFlags'];
const isKeptWords = (value: unknown): value is KeptWords =>
  isRecord(value) &&
  KINDS.includes(String(value['kind'])) &&
  isText(value['id']) &&
  isText(value['words']) &&
  isSaid(value['said']);

const isReading = (value: unknown): value is Reading =>
  isRecord(value) &&
  isText(value['text']) &&
  isPhones(value['phones']) &&
  (value['confidence'] === null || typeof value['confidence'] === 'number');
